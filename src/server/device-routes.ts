import { Hono } from "hono";
import type { Live } from "./live.ts";
import type { PairedDevices } from "./paired-devices.ts";
import { type Pairing, pairingLink } from "./pairing.ts";
import { Refused } from "./refusals.ts";
import { jsonObjectOf } from "./request-body.ts";
import type { Role } from "./roles.ts";
import type { ServerLog } from "./server-log.ts";
import { giveCookie, isLoopback, owner, paired, type ServerEnv } from "./visitor.ts";

export interface DeviceParts {
  readonly devices: PairedDevices;
  readonly pairing: Pairing;
  readonly live: Live;
  readonly log: ServerLog;
  /** Addresses under which the server is reached from the network; none where it is not shared. */
  readonly sharedUnder: () => readonly string[];
  readonly onPaired?: (role: Role) => void;
}

/** Who is let in from the network, and how. */
export function deviceRoutes({ devices, pairing, live, log, sharedUnder, onPaired }: DeviceParts): Hono<ServerEnv> {
  const app = new Hono<ServerEnv>();
  const isShared = () => sharedUnder().length > 0;

  app.get("/me", paired, (c) => {
    const { role, device } = c.var.visitor!;
    return c.json({ role, shared: isShared(), loopback: device === null && isLoopback(c.env.address) });
  });

  app.post("/pair", async (c) => {
    const { code, name = "" } = await jsonObjectOf(c, 2000);
    if (!isShared()) throw new Refused("not-shared");
    if (typeof code !== "string" || typeof name !== "string" || !isName(name)) throw new Refused("body-unfit");
    if (devices.isFull) throw new Refused("devices-full");
    const tried = pairing.try(code, c.env.address);
    if (tried.result === "wait") throw new Refused("pairing-too-often", { retryAfterS: tried.seconds });
    if (tried.result === "wrong") throw new Refused("code-wrong");
    if (tried.result === "not in force") throw new Refused("code-not-in-force");
    const { token } = devices.pair(tried.role, name.trim());
    log.tell("info", "device paired", { role: tried.role, devices: devices.list().length });
    giveCookie(c, token);
    onPaired?.(tried.role);
    return c.body(null, 204);
  });

  // A new code for the owner's own page; the one that was in force no longer is.
  app.post("/pairing", owner, async (c) => {
    const { role } = await jsonObjectOf(c, 2000);
    if (!isShared()) throw new Refused("not-shared");
    if (role !== "owner" && role !== "helper") throw new Refused("body-unfit");
    const { code, untilMs } = pairing.offer(role);
    const addresses = sharedUnder();
    const [first = ""] = addresses;
    return c.json(
      { code, role, until: new Date(untilMs).toISOString(), addresses, link: pairingLink(first, code) },
      201,
    );
  });

  app.get("/devices", owner, (c) =>
    c.json(
      devices.list().map((device) => ({
        id: device.id,
        name: device.name,
        role: device.role,
        paired: new Date(device.pairedMs).toISOString(),
        seen: new Date(device.seenMs).toISOString(),
        expires: new Date(devices.expiresMs(device)).toISOString(),
        isThis: device.id === c.var.visitor?.device?.id,
      })),
    ),
  );

  app.delete("/devices/:device", owner, (c) => {
    const id = c.req.param("device");
    if (!devices.revoke(id)) throw new Refused("device-unknown");
    live.closeDevice(id);
    log.tell("info", "device removed", { devices: devices.list().length });
    return c.body(null, 204);
  });

  return app;
}

function isName(text: string): boolean {
  return text.length <= 60 && !/\p{Cc}/u.test(text);
}
