import { computed, signal } from "@preact/signals";

/** Where the page stands: the parts of the path, and what is asked for behind it. */
export interface Place {
  readonly path: readonly string[];
  readonly query: URLSearchParams;
}

/** What an address asks for. A machine's stage gets whatever stands behind its own name in the path. */
export type Route =
  | { readonly view: "machines" }
  | { readonly view: "new"; readonly copyOf: string | null }
  | { readonly view: "take-in" }
  | { readonly view: "settings" }
  | {
      readonly view: "machine";
      readonly machine: string;
      readonly stage: string;
      readonly rest: readonly string[];
      readonly query: URLSearchParams;
    }
  | { readonly view: "nowhere" };

/** What the page makes itself is 32 digits; what came by the command line has dashes between them. */
const machineId = /^[0-9a-f]{8}(-?[0-9a-f]{4}){3}-?[0-9a-f]{12}$/;

export function routeFrom({ path, query }: Place): Route {
  const [first, second, third = "overview", ...rest] = path;
  if (first === undefined) return { view: "machines" };
  if (first === "new" && second === undefined) return { view: "new", copyOf: query.get("copy") };
  if (first === "take-in" && second === undefined) return { view: "take-in" };
  if (first === "settings" && second === undefined) return { view: "settings" };
  if (first === "machine" && second !== undefined && machineId.test(second)) {
    return { view: "machine", machine: second, stage: third, rest, query };
  }
  return { view: "nowhere" };
}

/** The parts of an address, each as it was before it was written into one. A part that is no text is passed over. */
export function placeFrom(address: string): Place {
  const url = new URL(address, "http://page.invalid");
  const path = url.pathname.split("/").filter((part) => part !== "");
  return { path: path.map(decoded), query: url.searchParams };
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part).replaceAll("~", ".");
  } catch {
    return part;
  }
}

/**
 * "/machine/ID/measure/gap-under-beam" out of its parts. A point is written as ~, because the server takes what ends in
 * a point and letters for a file.
 */
export function addressOf(...parts: readonly string[]): string {
  return `/${parts.map((part) => encodeURIComponent(part).replaceAll(".", "~")).join("/")}`;
}

/** Where a machine's stage is found; parts behind the stage may be added. */
export function machineAddress(machine: string, ...parts: readonly string[]): string {
  return addressOf("machine", machine, ...parts);
}

const here = typeof location === "undefined" ? "/" : location.pathname + location.search;

/** The address as it stands now. */
export const address = signal(here);

export const route = computed(() => routeFrom(placeFrom(address.value)));

/** Counts the ways that were gone by hand: focus goes to the new view's heading then, and stays where it is at the start. */
export const moves = signal(0);

/** Goes to an address of the page. "replace" leaves no trace of the one before. */
export function goTo(to: string, how: "push" | "replace" = "push"): void {
  if (to === address.value) return;
  history[how === "push" ? "pushState" : "replaceState"](null, "", to);
  address.value = to;
  if (how === "push") moves.value += 1;
}

export function goBack(): void {
  history.back();
}

/** Begins to follow the browser's own back and forward. */
export function followBrowser(): void {
  addEventListener("popstate", () => {
    address.value = location.pathname + location.search;
    moves.value += 1;
  });
}
