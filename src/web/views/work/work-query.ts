import type { PictureSizes, WorkAsked } from "../../worker/protocol-work.ts";

/** What is looked at: a kind of work and sizes of pictures, as they stand in an address: ?kind=inlay&circle=radius:50. */
export function askedFromQuery(query: URLSearchParams): Omit<WorkAsked, "after"> {
  const sizes = Object.fromEntries(
    [...query].filter(([name]) => name !== "kind").map(([picture, text]) => [picture, sizesFromText(text)]),
  );
  return { kind: query.get("kind"), sizes };
}

function sizesFromText(text: string): Readonly<Record<string, number>> {
  return Object.fromEntries(
    text.split(",").flatMap((pair) => {
      const [key, value] = pair.split(":");
      const number = Number(value);
      return key && value && Number.isFinite(number) ? [[key, number] as const] : [];
    }),
  );
}

export function queryFromAsked({ kind, sizes }: Omit<WorkAsked, "after">): string {
  const query = new URLSearchParams();
  if (kind !== null) query.set("kind", kind);
  for (const [picture, own] of Object.entries(sizes)) {
    const pairs = Object.entries(own).map(([key, value]) => `${key}:${value}`);
    if (pairs.length > 0) query.set(picture, pairs.join(","));
  }
  const text = query.toString();
  return text === "" ? "" : `?${text}`;
}

/** The same with one picture asked for otherwise; with no sizes it is drawn as is usual. */
export function withSizes(sizes: PictureSizes, picture: string, own: Readonly<Record<string, number>>): PictureSizes {
  return { ...sizes, [picture]: own };
}
