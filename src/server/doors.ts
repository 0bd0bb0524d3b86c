import { isIPv6 } from "node:net";
import type { Context } from "hono";
import { Refused } from "./refusals.ts";

/** One way in: an address that is listened on, with the names under which it may be asked. */
export interface Door {
  /** Only the loopback door makes whoever comes through it an owner. */
  readonly kind: "loopback" | "network";
  readonly scheme: "http" | "https";
  readonly port: number;
  /** Values of the Host header that are ours, in lower case. */
  readonly hosts: ReadonlySet<string>;
}

export function loopbackDoor(port: number): Door {
  return { kind: "loopback", scheme: "http", port, hosts: hostsFor(["127.0.0.1", "[::1]", "localhost"], port, 80) };
}

export function networkDoor(addresses: readonly string[], port: number, scheme: Door["scheme"]): Door {
  return { kind: "network", scheme, port, hosts: hostsFor(addresses.map(hostOf), port, scheme === "https" ? 443 : 80) };
}

/** An address as it stands in a URL and in the Host header: IPv6 in brackets, in its shortest form [RFC 3986 §3.2.2]. */
export function hostOf(address: string): string {
  return isIPv6(address) ? new URL(`http://[${address}]`).hostname : address;
}

function hostsFor(names: readonly string[], port: number, usualPort: number): ReadonlySet<string> {
  return new Set(names.flatMap((name) => (port === usualPort ? [name, `${name}:${port}`] : [`${name}:${port}`])));
}

/**
 * A page of another name that has been made to point at this computer still sends its own name as Host, so whoever asks
 * under a foreign name is refused, whatever it asks for.
 */
export function refuseForeignHost(c: Context, door: Door): void {
  // The two differ where a whole address stands in the request line.
  const asked = new URL(c.req.url).host.toLowerCase();
  const header = (c.req.header("host") ?? asked).toLowerCase();
  if (!door.hosts.has(asked) || !door.hosts.has(header)) throw new Refused("host-foreign");
}

const changesNothing = new Set(["GET", "HEAD"]);

/**
 * A browser says with every request that could change something which page it comes from; only our own may. Reading is
 * held to the same where the browser says it, so that a foreign page can neither load nor keep open anything here.
 */
export function refuseForeignOrigin(c: Context, door: Door): void {
  const origin = c.req.header("origin")?.toLowerCase();
  const site = c.req.header("sec-fetch-site");
  const host = (c.req.header("host") ?? new URL(c.req.url).host).toLowerCase();
  const isOurs = origin === `${door.scheme}://${host}`;
  if (changesNothing.has(c.req.method)) {
    // "none" is an address typed by the user.
    if (origin !== undefined && !isOurs) throw new Refused("origin-foreign");
    if (site !== undefined && site !== "same-origin" && site !== "none") throw new Refused("origin-foreign");
    return;
  }
  if (!isOurs || (site !== undefined && site !== "same-origin")) throw new Refused("origin-foreign");
}
