import { isIPv6 } from "node:net";
import { networkInterfaces } from "node:os";

/**
 * The addresses of this computer on networks that are the workshop's own: IPv4 in the ranges that are never routed on the
 * internet [RFC 1918 §3], and unique local IPv6 [RFC 4193 §3]. An address that the whole world can reach is left out, so
 * that sharing stays in the house; so is one that holds for a single cable, which no browser takes.
 */
export function workshopAddresses(interfaces: ReturnType<typeof networkInterfaces> = networkInterfaces()): string[] {
  const all = Object.values(interfaces).flatMap((addresses) => addresses ?? []);
  const own = all.filter(({ internal, address }) => !internal && isPrivate(address)).map(({ address }) => address);
  return own.sort((a, b) => rankOf(a) - rankOf(b));
}

/**
 * The first is the one that is shown as a square code. Networks inside the computer itself, as virtual machines have them,
 * are mostly of the middle range; IPv6 is the longest to type.
 */
function rankOf(address: string): number {
  if (isIPv6(address)) return 2;
  return address.startsWith("172.") ? 1 : 0;
}

export function isPrivate(address: string): boolean {
  if (isIPv6(address)) return /^f[cd]/i.test(address);
  const [first, second] = address.split(".").map(Number);
  return first === 10 || (first === 172 && second! >= 16 && second! <= 31) || (first === 192 && second === 168);
}
