import type { Context, MiddlewareHandler } from "hono";
import { getCookie, setCookie } from "hono/cookie";
import type { Door } from "./doors.ts";
import { longestMs, type PairedDevice, type PairedDevices } from "./paired-devices.ts";
import { Refused } from "./refusals.ts";
import type { Role } from "./roles.ts";

/** Whoever asks. */
export interface Visitor {
  readonly role: Role;
  /** Null for whoever sits at the computer itself. */
  readonly device: PairedDevice | null;
}

/** What handlers of a request find beside it. */
export interface ServerEnv {
  readonly Bindings: {
    readonly door: Door;
    /** The address the connection comes from, as the system says; what a header says of it counts for nothing. */
    readonly address: string;
    /** Ends the connection at once, where there is one. */
    readonly hangUp?: () => void;
  };
  readonly Variables: { readonly visitor: Visitor | null };
}

/** What a proxy puts in. Behind one, a connection from this computer may come from anywhere. */
const proxyHeaders = ["forwarded", "x-forwarded-for", "x-forwarded-host", "x-forwarded-proto", "x-real-ip", "via"];

/** A paired device is what it was paired as; without that, only the computer itself is let in, as owner. */
export function visitorOf(c: Context<ServerEnv>, devices: PairedDevices): Visitor | null {
  const { door, address } = c.env;
  const token = getCookie(c, cookieName(door));
  const device = token === undefined ? null : devices.byToken(token);
  if (device) return { role: device.role, device };
  const isProxied = proxyHeaders.some((name) => c.req.header(name) !== undefined);
  return door.kind === "loopback" && isLoopback(address) && !isProxied ? { role: "owner", device: null } : null;
}

export function giveCookie(c: Context<ServerEnv>, token: string): void {
  setCookie(c, cookieName(c.env.door), token, {
    httpOnly: true,
    sameSite: "Strict",
    secure: c.env.door.scheme === "https",
    path: "/",
    maxAge: longestMs / 1000,
  });
}

/** Browsers keep cookies by host and not by port, so that the port is part of the name. */
export function cookieName({ port }: Door): string {
  return `kilter-${port}`;
}

export function isLoopback(address: string): boolean {
  return /^(?:::ffff:)?127\.\d{1,3}\.\d{1,3}\.\d{1,3}$/.test(address) || address === "::1";
}

/** Let in: anybody who is paired, or sits at the computer. */
export const paired: MiddlewareHandler<ServerEnv> = async (c, next) => {
  if (c.var.visitor === null) throw new Refused("not-paired");
  await next();
};

export const owner: MiddlewareHandler<ServerEnv> = async (c, next) => {
  if (c.var.visitor === null) throw new Refused("not-paired");
  if (c.var.visitor.role !== "owner") throw new Refused("owner-only");
  await next();
};
