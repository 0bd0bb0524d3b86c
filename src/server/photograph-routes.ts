import { Hono } from "hono";
import type { EventStore } from "../app/event-store.ts";
import { mostPhotographBytes, photographFromBytes } from "../app/photograph.ts";
import { sha256Of } from "../store/integrity.ts";
import type { Logbooks } from "./logbooks.ts";
import { knownMachine } from "./machine-routes.ts";
import { Refused } from "./refusals.ts";
import { bytesOf, mediaTypeOf } from "./request-body.ts";
import { owner, paired, type ServerEnv } from "./visitor.ts";

const taken: ReadonlySet<string> = new Set(["image/jpeg", "image/png", "image/webp"]);

/** The pictures that photograph events speak of, by their checksum. */
export function photographRoutes(store: EventStore, logbooks: Logbooks): Hono<ServerEnv> {
  const app = new Hono<ServerEnv>();
  const path = "/machines/:id/photographs/:sha256";

  app.put(path, paired, async (c) => {
    knownMachine(c, logbooks);
    const sha256 = checksumFrom(c.req.param("sha256"));
    const mediaType = mediaTypeOf(c);
    if (!taken.has(mediaType)) throw new Refused("type-unfit");
    const photograph = photographFromBytes(await bytesOf(c, mostPhotographBytes), sha256Of, mediaType);
    if (!photograph.ok) throw new Refused("picture-unfit", { diagnostics: photograph.diagnostics });
    // Bytes from which something had to be taken out first are not those that the checksum was made of.
    if (photograph.value.sha256 !== sha256) throw new Refused("picture-differs");
    // The machine may have been deleted while the bytes were on their way.
    store.addPhotograph(knownMachine(c, logbooks), photograph.value);
    return c.body(null, 201);
  });

  app.get(path, paired, (c) => {
    const machine = knownMachine(c, logbooks);
    const sha256 = checksumFrom(c.req.param("sha256"));
    const photograph = store.photograph(machine, sha256);
    if (photograph === null) throw new Refused("photograph-unknown");
    // Asked for anew each time, because its bytes can be removed.
    const headers = { ETag: `"${sha256}"`, "Cache-Control": "private, no-cache" };
    if (c.req.header("if-none-match")?.includes(sha256)) return c.body(null, 304, headers);
    return c.body(Uint8Array.from(photograph.bytes), 200, { ...headers, "Content-Type": photograph.mediaType });
  });

  app.delete(path, owner, (c) => {
    const machine = knownMachine(c, logbooks);
    const sha256 = checksumFrom(c.req.param("sha256"));
    if (store.photograph(machine, sha256) === null) throw new Refused("photograph-unknown");
    store.removePhotographBytes(machine, sha256);
    return c.body(null, 204);
  });

  return app;
}

function checksumFrom(text: string): string {
  if (!/^[0-9a-f]{64}$/.test(text)) throw new Refused("photograph-unknown");
  return text;
}
