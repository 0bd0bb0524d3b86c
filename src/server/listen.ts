import { createServer, type Server } from "node:http";
import { createServer as createTlsServer } from "node:https";
import type { AddressInfo, Socket } from "node:net";
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

/** Opens every door, all on one port: that asked for, or the next that is free. Throws what the system says otherwise. */
export async function listen(options: ListenOptions): Promise<Listening> {
  for (let tried = 0; ; tried += 1) {
    const open: Server[] = [];
    try {
      return await openDoors(options, options.port === 0 ? 0 : options.port + tried, open);
    } catch (problem) {
      await Promise.all(open.map(shut));
      const isTaken = (problem as NodeJS.ErrnoException).code === "EADDRINUSE";
      if (!isTaken || tried + 1 >= options.tries) throw problem;
    }
  }
}

async function openDoors(options: ListenOptions, wanted: number, open: Server[]): Promise<Listening> {
  const { addresses, certificate } = options;
  const first = serverBehind(options, null);
  open.push(first.server);
  const port = await listenOn(first.server, "127.0.0.1", wanted);
  const loopback = first.name(loopbackDoor(port));
  let network: Door | null = null;
  for (const address of addresses) {
    const further = serverBehind(options, certificate);
    open.push(further.server);
    const own = await listenOn(further.server, address, options.networkPort ?? port);
    network = further.name(network ?? networkDoor(addresses, own, certificate ? "https" : "http"));
  }
  return { loopback, network, close: async () => void (await Promise.all(open.map(shut))) };
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
    server.listen({ host: address, port, exclusive: true }, () => {
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
