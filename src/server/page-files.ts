import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { extname, join } from "node:path";
import { gzipSync } from "node:zlib";
import { Refused } from "./refusals.ts";
import { headersOfPage } from "./security-headers.ts";

interface PageFile {
  readonly type: string;
  readonly tag: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Made when first asked for; null where packing gains nothing. */
  packed?: Uint8Array<ArrayBuffer> | null;
}

/** The built page, by the path it is asked under. What is not in it cannot be asked for. */
export type PageFiles = ReadonlyMap<string, PageFile>;

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".svg": "image/svg+xml; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".png": "image/png",
  ".jpg": "image/jpeg",
  ".webp": "image/webp",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".woff": "font/woff",
  ".ttf": "font/ttf",
  ".pdf": "application/pdf",
};
const isPackedAlready = /^(?:image\/(?!svg)|font\/woff|application\/pdf)/;

/** Reads the built page into memory once, so that what is served hangs together even while it is built anew. */
export function readPageFiles(folder: string): PageFiles {
  const files = new Map<string, PageFile>();
  const read = (under: string): void => {
    for (const entry of readdirSync(join(folder, under), { withFileTypes: true })) {
      const path = `${under}/${entry.name}`;
      if (entry.isDirectory()) read(path);
      else if (entry.isFile()) {
        const bytes = Uint8Array.from(readFileSync(join(folder, path)));
        const tag = `"${createHash("sha256").update(bytes).digest("base64url").slice(0, 22)}"`;
        files.set(path, { type: types[extname(path).toLowerCase()] ?? "application/octet-stream", tag, bytes });
      }
    }
  };
  read("");
  return files;
}

/** A file of the page; the page itself for every address that is one of its own and no file's. */
export function pageResponse(files: PageFiles, path: string, asked: Headers): Response {
  const named = files.get(path);
  // An address with an ending is a file's: a script that is gone must not come back as a page.
  const file = named ?? (/\.[^/]*$/.test(path) ? undefined : files.get("/index.html"));
  if (!file) throw new Refused("path-unknown");
  const headers: Record<string, string> = {
    ...headersOfPage,
    "Content-Type": file.type,
    ETag: file.tag,
    // Names under assets/ change with what is in them.
    "Cache-Control": named && path.startsWith("/assets/") ? "public, max-age=31536000, immutable" : "no-cache",
    Vary: "Accept-Encoding",
  };
  if (asked.get("if-none-match")?.includes(file.tag)) return new Response(null, { status: 304, headers });
  const packed = /\bgzip\b(?!\s*;\s*q=0(?:\.0*)?\s*(?:,|$))/.test(asked.get("accept-encoding") ?? "") && packedOf(file);
  if (packed) headers["Content-Encoding"] = "gzip";
  return new Response(packed || file.bytes, { headers });
}

function packedOf(file: PageFile): Uint8Array<ArrayBuffer> | null {
  if (file.packed === undefined) {
    const packed = isPackedAlready.test(file.type) || file.bytes.length < 1024 ? null : gzipSync(file.bytes);
    file.packed = packed && packed.length < file.bytes.length ? Uint8Array.from(packed) : null;
  }
  return file.packed;
}
