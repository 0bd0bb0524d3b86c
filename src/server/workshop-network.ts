import { networkInterfaces } from "node:os";

/**
 * The addresses of this computer on networks that are the workshop's own: IPv4 in the ranges that are never routed on the
 * internet [RFC 1918 §3]. An address that the whole world can reach is left out, so that sharing stays in the house.
 */
export function workshopAddresses(interfaces: ReturnType<typeof networkInterfaces> = networkInterfaces()): string[] {
  const all = Object.values(interfaces).flatMap((addresses) => addresses ?? []);
  const own = all.filter(({ family, internal, address }) => family === "IPv4" && !internal && isPrivate(address));
  // Networks inside the computer itself, as virtual machines have them, are mostly of the middle range: those come last.
  const isMiddle = ({ address }: { readonly address: string }) => Number(address.startsWith("172."));
  return own.sort((a, b) => isMiddle(a) - isMiddle(b)).map(({ address }) => address);
}

export function isPrivate(address: string): boolean {
  const [first, second] = address.split(".").map(Number);
  return first === 10 || (first === 172 && second! >= 16 && second! <= 31) || (first === 192 && second === 168);
}
