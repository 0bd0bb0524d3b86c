import { render } from "preact";
import { App, fetchViews } from "./app.tsx";
import { follow } from "./live/feed.ts";
import { openOutbox } from "./outbox/outbox.ts";
import "./preferences.ts";
import { followBrowser } from "./router.ts";
import { fault, notFetched } from "./worker/client.ts";

// A slip of ours is told, whatever part of the page it is in.
addEventListener("unhandledrejection", ({ reason }) => {
  if (reason instanceof Error && reason.message === notFetched) return;
  fault.value = reason instanceof Error ? `${reason.message}\n${reason.stack ?? ""}` : String(reason);
});
addEventListener("error", ({ message }) => {
  fault.value = message;
});

followBrowser();
render(<App />, document.getElementById("page") as HTMLElement);
await openOutbox();
setTimeout(fetchViews, 200);
void import("./photographs/pictures.ts").then(({ openPictures }) => openPictures()).catch(() => {});
await follow();
