import { type Context, Hono } from "hono";
import { matchedRoutes } from "hono/route";
import { type EventStore, StoreFailure } from "../app/event-store.ts";
import type { Surroundings } from "../app/surroundings.ts";
import { formatVersion } from "../logbook/schema/envelope.ts";
import { deviceRoutes } from "./device-routes.ts";
import { refuseForeignHost, refuseForeignOrigin } from "./doors.ts";
import { Live, type LiveLimits, usualLiveLimits } from "./live.ts";
import { Logbooks } from "./logbooks.ts";
import { machineRoutes, placeFrom } from "./machine-routes.ts";
import { type PageFiles, pageResponse } from "./page-files.ts";
import type { PairedDevices } from "./paired-devices.ts";
import type { Pairing } from "./pairing.ts";
import { photographRoutes } from "./photograph-routes.ts";
import { Refused, refusalResponse } from "./refusals.ts";
import type { Role } from "./roles.ts";
import { headersOfData } from "./security-headers.ts";
import type { ServerLog } from "./server-log.ts";
import { paired, type ServerEnv, visitorOf } from "./visitor.ts";

export interface ServerParts {
  readonly store: EventStore;
  readonly surroundings: Surroundings;
  /** The built page; null while there is none. */
  readonly web: PageFiles | null;
  readonly log: ServerLog;
  readonly version: string;
  readonly devices: PairedDevices;
  readonly pairing: Pairing;
  readonly sharedUnder: () => readonly string[];
  readonly keepExport: (machine: string, name: string) => void;
  readonly onPaired?: (role: Role) => void;
  readonly liveLimits?: LiveLimits;
}

export interface ServerApp {
  readonly app: Hono<ServerEnv>;
  readonly live: Live;
  readonly logbooks: Logbooks;
}

/** Everything that is answered, without a socket: whoever listens says with each request through which door it came. */
export function serverApp(parts: ServerParts): ServerApp {
  const { store, surroundings, log, devices, web } = parts;
  const live = new Live(
    store,
    parts.liveLimits ?? usualLiveLimits,
    () => surroundings.nowMs(),
    () => log.tell("warn", "live connection stalled", { open: live.count }),
  );
  const logbooks = new Logbooks(store, (added) => live.publish(added));
  const app = new Hono<ServerEnv>();

  app.use(async (c, next) => {
    const started = performance.now();
    await next();
    // Refusals have a line of their own, which is written less often.
    if (c.error) return;
    const ms = Math.round(performance.now() - started);
    log.tell("info", "request", { method: c.req.method, route: patternOf(c), status: c.res.status, ms });
  });

  app.use(async (c, next) => {
    refuseForeignHost(c, c.env.door);
    await next();
  });

  app.use("/api/*", async (c, next) => {
    refuseForeignOrigin(c, c.env.door);
    c.set("visitor", visitorOf(c, devices));
    await next();
    for (const [name, value] of Object.entries(headersOfData)) c.header(name, value);
    if (!c.res.headers.has("Cache-Control")) c.header("Cache-Control", "no-store");
  });

  const api = new Hono<ServerEnv>();
  api.get("/health", (c) =>
    c.json({ ok: true, events: store.machines().reduce((sum, { events }) => sum + events, 0) }),
  );
  api.get("/version", (c) => c.json({ version: parts.version, schema: formatVersion }));
  api.get("/live", paired, (c) => {
    // Asked only for what would be said above it, it must not leave a stream behind that nobody reads.
    if (c.req.method === "HEAD") return c.body(null);
    const place = placeFrom(c.req.header("last-event-id") ?? c.req.query("after"));
    const { device } = c.var.visitor!;
    const visitor = {
      device: device?.id ?? "this computer",
      isWelcome: () => device === null || devices.byId(device.id) !== null,
      hangUp: () => c.env.hangUp?.(),
    };
    const stream = live.open(visitor, place);
    if (stream === null) throw new Refused("live-too-many", { retryAfterS: 30 });
    return c.body(stream, 200, { "Content-Type": "text/event-stream; charset=utf-8", "Cache-Control": "no-store" });
  });
  api.route("/", machineRoutes({ store, logbooks, live, keepExport: parts.keepExport }));
  api.route("/", photographRoutes(store, logbooks));
  api.route("/", deviceRoutes({ ...parts, live }));
  app.route("/api", api);
  app.all("/api/*", () => {
    throw new Refused("path-unknown");
  });

  app.get("*", (c) => {
    if (web === null) throw new Refused("path-unknown");
    return pageResponse(web, c.req.path, c.req.raw.headers);
  });

  app.notFound(() => {
    throw new Refused("path-unknown");
  });

  app.onError((problem, c) => {
    const refused = problem instanceof Refused ? problem : refusedFor(problem);
    const data = { method: c.req.method, route: patternOf(c) };
    if (refused !== problem) log.tell("error", refused.code, { ...data, ...traceOf(problem) });
    else log.refused(refused.code, data);
    const response = refusalResponse(refused);
    for (const [name, value] of Object.entries(headersOfData)) response.headers.set(name, value);
    response.headers.set("Cache-Control", "no-store");
    return response;
  });

  return { app, live, logbooks };
}

/** The pattern that an address fell under, never the address itself. */
function patternOf(c: Context): string {
  return matchedRoutes(c).find(({ path }) => !path.includes("*"))?.path ?? "/*";
}

/** What is thrown and no refusal: the disk's doing, or ours. */
function refusedFor(problem: unknown): Refused {
  const { code } = problem as { code?: unknown };
  const isOfDisk = typeof code === "string" && /^(?:ENOSPC|EIO|EROFS|EDQUOT|EACCES|EPERM|EMFILE)/.test(code);
  return new Refused(isOfDisk || problem instanceof StoreFailure ? "disk-refuses" : "slip-of-ours");
}

/** Where something went wrong; messages are left out, because they may repeat what was sent. */
function traceOf(problem: unknown): Readonly<Record<string, string>> {
  const { name, stack } = problem as { name?: string; stack?: string };
  const code = problem instanceof StoreFailure ? problem.diagnostic.code : (problem as { code?: unknown }).code;
  const places = (stack ?? "").split("\n").filter((line) => /^\s+at /.test(line));
  return {
    problem: name ?? "unknown",
    ...(typeof code === "string" && { system: code }),
    trace: places
      .slice(0, 8)
      .map((line) => line.trim())
      .join(" < "),
  };
}
