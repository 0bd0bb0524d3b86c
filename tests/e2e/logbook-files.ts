import { readFileSync } from "node:fs";
import { expect, type KilterServer } from "./kilter-page.ts";

/** Brings a logbook file to the server, as a new machine or as more of one that it has; its id there. */
export async function bring(server: KilterServer, file: string): Promise<string> {
  const reply = await fetch(`${server.address}/api/machines/import`, {
    method: "POST",
    headers: { Origin: server.address, "Content-Type": "application/x-ndjson" },
    body: readFileSync(file),
  });
  expect(reply.ok, await reply.clone().text()).toBe(true);
  return ((await reply.json()) as { id: string }).id;
}
