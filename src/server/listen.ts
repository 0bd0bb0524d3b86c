import { createServer, type Server } from "node:http";
import { createServer as createTlsServer } from "node:https";
import { type AddressInfo, isIPv6, type Socket } from "node:net";
import { getRequestListener } from "@hono/node-server";
import type { Hono } from "hono";
import type { Certificate } from "./certificate.ts";
import { type Door, loopbackDoor, networkDoor } from "./doors.ts";
import { type RefusalCode, Refused, refusalResponse } from "./refusals.ts";
import type { ServerEnv } from "./visitor.ts";

export interface ListenOptions {
  readonly app: Hono<ServerEnv>;
  /** 0 takes any that is free. */
  readonly port: number;
  /** So many ports are tried, one after the other. */
  readonly tries: number;
  /** Addresses of networks to be listened on besides the loopback. */
  readonly addresses: readonly string[];
  /** Tests, which stay on the loopback, listen for the network on another port of it. */
  readonly networkPort?: number;
  readonly certificate: Certificate | null;
  readonly onRefused: (code: RefusalCode) => void;
}

export interface Listening {
  readonly loopback: Door;
  /** Null where nothing but the loopback is listened on. */
  readonly network: Door | null;
  /** Those of the addresses asked for that are listened on. */
  readonly addresses: readonly string[];
  /** Takes no more connections, and resolves when the last has ended; after a moment those that stay are cut. */
  close(): Promise<void>;
}

/** Slow is not hostile, but nobody may hold a connection for nothing. */
const patience = {
  requestTimeout: 120_000,
  headersTimeout: 10_000,
  keepAliveTimeout: 10_000,
  connectionsCheckingInterval: 5000,
  maxHeaderSize: 16_384,
};
const silentMs = 60_000;
const mostConnections = 400;
const lastMomentMs = 1500;

/** What the system picks for one address may be taken on the other. */
const leastTriesOfAny = 10;

/** Opens every door, all on one port: that asked for, or the next that is free. Throws what the system says otherwise. */
export async function listen(options: ListenOptions): Promise<Listening> {
  const tries = options.port === 0 ? Math.max(options.tries, leastTriesOfAny) : options.tries;
  for (let tried = 0; ; tried += 1) {
    const open: Server[] = [];
    try {
      return await openDoors(options, options.port === 0 ? 0 : options.port + tried, open);
    } catch (problem) {
      await Promise.all(open.map(shut));
      if (codeOf(problem) !== "EADDRINUSE" || tried + 1 >= tries) throw problem;
    }
  }
}

async function openDoors(options: ListenOptions, wanted: number, open: Server[]): Promise<Listening> {
  const { certificate } = options;
  const opened = async (address: string, port: number, of: Certificate | null) => {
    const behind = serverBehind(options, of);
    open.push(behind.server);
    return { name: behind.name, port: await listenOn(behind.server, address, port) };
  };
  const first = await opened("127.0.0.1", wanted, null);
  const loopback = first.name(loopbackDoor(first.port));
  // "localhost" is either of the two, and nobody else's program may answer under it.
  const second = await unlessMissing(() => opened("::1", first.port, null));
  second?.name(loopback);
  const behind: { readonly address: string; readonly name: (of: Door) => Door; readonly port: number }[] = [];
  for (const address of options.addresses) {
    const port = behind[0]?.port ?? options.networkPort ?? first.port;
    const further = () => opened(address, port, certificate);
    const got = await (isIPv6(address) ? unlessMissing(further) : further());
    if (got !== null) behind.push({ address, ...got });
  }
  const addresses = behind.map(({ address }) => address);
  const network = behind[0] ? networkDoor(addresses, behind[0].port, certificate ? "https" : "http") : null;
  for (const { name } of behind) name(network!);
  return { loopback, network, addresses, close: async () => void (await Promise.all(open.map(shut))) };
}

/** Null where the computer has no IPv6, or has given the address up since it was listed. */
async function unlessMissing<T>(opening: () => Promise<T>): Promise<T | null> {
  try {
    return await opening();
  } catch (problem) {
    if (["EADDRNOTAVAIL", "EAFNOSUPPORT"].includes(codeOf(problem))) return null;
    throw problem;
  }
}

function codeOf(problem: unknown): string {
  return (problem as NodeJS.ErrnoException).code ?? "";
}

/** A server that answers nothing until it is told which door it stands behind. */
function serverBehind({ app, onRefused }: ListenOptions, certificate: Certificate | null) {
  let door: Door | null = null;
  const answer = getRequestListener(
    (request, { incoming, outgoing }) =>
      app.fetch(request, {
        door: door!,
        address: incoming.socket.remoteAddress ?? "",
        hangUp: () => outgoing.destroy(),
      }),
    {
      overrideGlobalObjects: false,
      // What comes here could not even be read as a request.
      errorHandler: () => {
        onRefused("address-unfit");
        return refusalResponse(new Refused("address-unfit"));
      },
    },
  );
  const server = certificate
    ? createTlsServer({ ...patience, key: certificate.key, cert: certificate.cert, minVersion: "TLSv1.2" }, answer)
    : createServer(patience, answer);
  server.timeout = silentMs;
  server.maxConnections = mostConnections;
  server.on("drop", () => onRefused("requests-too-many"));
  server.on("clientError", (_: Error, socket: Socket) => {
    onRefused("address-unfit");
    if (socket.writable) socket.end("HTTP/1.1 400 Bad Request\r\nConnection: close\r\nContent-Length: 0\r\n\r\n");
    else socket.destroy();
  });
  const name = (of: Door): Door => {
    door = of;
    return of;
  };
  return { server: server as Server, name };
}

function listenOn(server: Server, address: string, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen({ host: address, port, exclusive: true, ipv6Only: isIPv6(address) }, () => {
      server.off("error", reject);
      // Later troubles end a connection, never the process.
      server.on("error", () => {});
      resolve((server.address() as AddressInfo).port);
    });
  });
}

function shut(server: Server): Promise<void> {
  return new Promise((resolve) => {
    const cut = setTimeout(() => server.closeAllConnections(), lastMomentMs);
    server.close(() => {
      clearTimeout(cut);
      resolve();
    });
    server.closeIdleConnections();
  });
}
