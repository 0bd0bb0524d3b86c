// A server in a process of its own, for measuring it and for killing it; what it is told comes as arguments:
//   node --import tsx bench/server-process.ts FOLDER
// Prints the ports of its two doors as one line of JSON. Ends with SIGTERM, or when whoever started it is gone.
import { randomBytes } from "node:crypto";
import { readFileSync } from "node:fs";
import { startServer } from "../src/server/start-server.ts";

const [data] = process.argv.slice(2);
const started = await startServer({
  data: data!,
  port: 0,
  tries: 1,
  // The network's door is on the loopback too, on a port of its own.
  addresses: ["127.0.0.1"],
  networkPort: 0,
  tls: false,
  web: null,
  demonstration: readFileSync(new URL("../catalog/demonstration/shared-workshop.jsonl", import.meta.url)),
  version: "0.0.0",
  surroundings: {
    nowMs: () => Date.now(),
    offsetMinutes: () => 0,
    randomBytes: (count) => Uint8Array.from(randomBytes(count)),
  },
});
if (!started.ok) throw new Error(JSON.stringify(started.diagnostics));
const server = started.value;
const portOf = (address: string) => Number(new URL(address).port);
console.log(JSON.stringify({ loopback: portOf(server.address), network: portOf(server.sharedUnder[0]!) }));

const stop = async (): Promise<void> => {
  await server.close();
  process.exit(0);
};
process.on("SIGTERM", stop);
process.stdin.on("end", stop).resume();
