import type { Photograph } from "../../app/event-store.ts";
import type { Diagnostic } from "../../core/base/diagnostic.ts";
import type { LogEvent } from "../../logbook/events.ts";

/**
 * One answer of the server: its body, or why there is none. `status` 0: it was not reached. `words` are all that it says,
 * for where there is one line; `error` and `diagnostics` are the same apart.
 */
export type Reply<T> =
  | { readonly ok: true; readonly body: T }
  | {
      readonly ok: false;
      readonly status: number;
      readonly words: string;
      readonly error: string;
      readonly diagnostics: readonly Diagnostic[];
    };

/** What became of a logbook that was sent whole. */
export interface Imported {
  readonly id: string;
  readonly added: number;
  readonly passedOver: number;
  readonly diagnostics: readonly Diagnostic[];
}

export interface MachineOnServer {
  readonly id: string;
  readonly demonstration: boolean;
  readonly events: number;
  readonly lastSequence: number;
}

export interface Me {
  readonly role: "owner" | "helper";
  readonly shared: boolean;
  readonly loopback: boolean;
}

export interface Device {
  readonly id: string;
  /** "" where nobody gave it one. */
  readonly name: string;
  readonly role: Me["role"];
  readonly paired: string;
  readonly seen: string;
  readonly expires: string;
  readonly isThis: boolean;
}

/** A code that lets in one device, where the server is reached from the network, and both in one link. */
export interface PairingOffer {
  readonly code: string;
  readonly until: string;
  readonly addresses: readonly string[];
  readonly link: string;
}

export const server = {
  me: () => request<Me>("GET", "/api/me"),
  version: () => request<{ version: string; schema: number }>("GET", "/api/version"),
  machines: () => request<readonly MachineOnServer[]>("GET", "/api/machines"),
  eventsAfter: (machine: string, after: number) =>
    request<{ events: readonly { sequence: number; event: LogEvent }[]; lastSequence: number }>(
      "GET",
      `/api/machines/${machine}/events?after=${after}`,
    ),
  begin: (machine: string, events: readonly LogEvent[]) => request("POST", "/api/machines", { id: machine, events }),
  append: (machine: string, events: readonly LogEvent[]) =>
    request("POST", `/api/machines/${machine}/events`, { events }),
  deleteMachine: (machine: string, name: string) => request("DELETE", `/api/machines/${machine}`, { name }),
  importLogbook: (text: string) => request<Imported>("POST", "/api/machines/import", text),
  putPhotograph: (machine: string, { sha256, mediaType, bytes }: Photograph) =>
    request(
      "PUT",
      `/api/machines/${machine}/photographs/${sha256}`,
      new Blob([Uint8Array.from(bytes)], { type: mediaType }),
    ),
  removePhotograph: (machine: string, sha256: string) =>
    request("DELETE", `/api/machines/${machine}/photographs/${sha256}`),
  pair: (code: string, name: string) => request("POST", "/api/pair", { code, name }),
  offerPairing: (role: Me["role"]) => request<PairingOffer>("POST", "/api/pairing", { role }),
  devices: () => request<readonly Device[]>("GET", "/api/devices"),
  dismiss: (device: string) => request("DELETE", `/api/devices/${device}`),
};

/** Longer than any answer takes in a workshop; a phone that has lost the network does not wait for ever. */
const PATIENCE_MS = 15_000;

async function request<T = unknown>(method: string, path: string, body?: unknown): Promise<Reply<T>> {
  const isText = typeof body === "string";
  const isPicture = body instanceof Blob;
  try {
    const response = await fetch(path, {
      method,
      credentials: "same-origin",
      signal: AbortSignal.timeout(PATIENCE_MS),
      ...(body !== undefined && {
        body: isText || isPicture ? body : JSON.stringify(body),
        headers: {
          "content-type": isPicture ? body.type : isText ? "application/jsonl" : "application/json",
        },
      }),
    });
    const text = await response.text();
    const parsed = text === "" ? undefined : (JSON.parse(text) as unknown);
    if (response.ok) return { ok: true, body: parsed as T };
    return { ok: false, status: response.status, ...refusalIn(parsed) };
  } catch {
    const words = "The server cannot be reached.";
    return { ok: false, status: 0, words, error: words, diagnostics: [] };
  }
}

/** What the server says is wrong, in its own words where it has some. */
function refusalIn(body: unknown): Pick<Extract<Reply<never>, { ok: false }>, "words" | "error" | "diagnostics"> {
  const { error: { words: error = "" } = {}, diagnostics = [] } = (body ?? {}) as {
    error?: { words?: string };
    diagnostics?: readonly (Diagnostic & { words?: string | { what?: string } })[];
  };
  const told = diagnostics.map(({ words }) => (typeof words === "string" ? words : (words?.what ?? "")));
  return { words: [error, ...told].filter((text) => text !== "").join(" "), error, diagnostics };
}
