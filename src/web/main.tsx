import { render } from "preact";
import { App, fetchViews } from "./app.tsx";
import { follow } from "./live/feed.ts";
import { openOutbox } from "./outbox/outbox.ts";
import "./preferences.ts";
import { followBrowser } from "./router.ts";

followBrowser();
render(<App />, document.getElementById("page") as HTMLElement);
await openOutbox();
setTimeout(fetchViews, 200);
await follow();
