import { createHash, X509Certificate } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { writeWhole } from "./data-file.ts";

export interface Certificate {
  readonly key: string;
  readonly cert: string;
  /** SHA-256 of the certificate, pairs of hexadecimal digits with colons, as browsers show it. */
  readonly fingerprint: string;
}

const dayMs = 86_400_000;
const lastsMs = 365 * dayMs;
/** One that ends sooner is made anew. */
const leastLeftMs = 14 * dayMs;

/**
 * A certificate for these addresses, signed by nobody but itself: whoever connects compares the fingerprint once. It is
 * kept, so that browsers that were told to trust it go on doing so; another is made when it ends or the addresses change.
 */
export async function certificateFor(addresses: readonly string[], file: string, nowMs: number): Promise<Certificate> {
  const kept = existsSync(file) ? readFileSync(file, "utf8") : "";
  const known = certificateFrom(kept, addresses, nowMs);
  if (known !== null) return known;
  const { generate } = await import("selfsigned");
  const made = await generate([{ name: "commonName", value: "Kilter in this workshop" }], {
    keyType: "ec",
    algorithm: "sha256",
    notBeforeDate: new Date(nowMs - dayMs),
    notAfterDate: new Date(nowMs + lastsMs),
    extensions: [
      { name: "basicConstraints", cA: false, critical: true },
      { name: "keyUsage", digitalSignature: true, critical: true },
      { name: "extKeyUsage", serverAuth: true },
      { name: "subjectAltName", altNames: addresses.map((ip) => ({ type: 7, ip })) },
    ],
  });
  const [key, cert] = [made.private.trim(), made.cert.trim()];
  writeWhole(file, `${key}\n${cert}\n`);
  return { key, cert, fingerprint: fingerprintOf(cert) };
}

/** What was kept, if it is still good for these addresses. */
function certificateFrom(text: string, addresses: readonly string[], nowMs: number): Certificate | null {
  const [key] = /-----BEGIN [A-Z ]*PRIVATE KEY-----[\s\S]*?-----END [A-Z ]*PRIVATE KEY-----/.exec(text) ?? [];
  const [cert] = /-----BEGIN CERTIFICATE-----[\s\S]*?-----END CERTIFICATE-----/.exec(text) ?? [];
  if (key === undefined || cert === undefined) return null;
  try {
    const read = new X509Certificate(cert);
    const isGood =
      Date.parse(read.validTo) - nowMs > leastLeftMs && addresses.every((address) => read.checkIP(address));
    return isGood ? { key, cert, fingerprint: fingerprintOf(cert) } : null;
  } catch {
    return null;
  }
}

function fingerprintOf(cert: string): string {
  const hash = createHash("sha256").update(new X509Certificate(cert).raw).digest("hex").toUpperCase();
  return hash.match(/../g)!.join(":");
}
