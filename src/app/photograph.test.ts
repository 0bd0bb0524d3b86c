import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  exifBlock,
  exifSegment,
  jfif,
  letters,
  pngChunk,
  segment,
  smallJpeg,
  smallPng,
  webpChunk,
  webpOf,
} from "../../tests/store/small-pictures.ts";
import { mostPhotographBytes, type PictureType, photographFromBytes, pictureTypeOf } from "./photograph.ts";
import { blockOfOrientation, orientationFrom } from "./photograph-orientation.ts";
import { chunkOf } from "./photograph-png.ts";

const sha256Of = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

function plain(bytes: Uint8Array): Uint8Array {
  const outcome = photographFromBytes(bytes, sha256Of);
  if (!outcome.ok) throw new Error(outcome.diagnostics[0]?.code);
  return outcome.value.bytes;
}

function codeOf(bytes: Uint8Array, stated?: string) {
  return photographFromBytes(bytes, sha256Of, stated).diagnostics[0]?.code;
}

const listOf = (bytes: Uint8Array) => Array.from(bytes);
const holds = (bytes: Uint8Array, text: string) => Buffer.from(bytes).includes(text, 0, "latin1");

const vp8x = (flags: number) => webpChunk("VP8X", [flags, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
const vp8l = webpChunk("VP8L", [0x2f, 0, 0, 0, 0]);

describe("a photograph", () => {
  test("is named by the checksum of what is kept, not of what came", () => {
    const bytes = smallJpeg([...jfif, ...segment(0xfe, letters("taken at home"))]);
    const outcome = photographFromBytes(bytes, sha256Of, "image/jpeg");
    expect(outcome).toMatchObject({ ok: true, value: { mediaType: "image/jpeg", sha256: sha256Of(smallJpeg()) } });
  });

  test.each<[PictureType, Uint8Array]>([
    ["image/jpeg", smallJpeg()],
    ["image/png", smallPng()],
    ["image/webp", webpOf(vp8l)],
  ])("of the type %s is known by its first bytes, and one without metadata stays as it is", (type, bytes) => {
    expect(pictureTypeOf(bytes)).toBe(type);
    expect(listOf(plain(bytes))).toEqual(listOf(bytes));
  });

  test.each([
    ["GIF89a and so on"],
    ["<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"],
    ["RIFF1234WAVEfmt "],
    ["\0\0\0\x18ftypheic"],
    [""],
  ])("is none whose bytes begin with %j", (text) => {
    expect(codeOf(Uint8Array.from(letters(text)))).toBe("photograph-of-unknown-type");
  });

  test("is refused where its bytes are of another type than is stated", () => {
    expect(codeOf(smallPng(), "image/jpeg")).toBe("photograph-of-other-type");
    expect(codeOf(smallPng(), "image/png")).toBeUndefined();
  });

  test("has at most 8 MB", () => {
    const fill = (count: number) => {
      const bytes = new Uint8Array(count).fill(0x55);
      const head = smallJpeg();
      bytes.set(head.subarray(0, head.length - 2));
      bytes.set([0xff, 0xd9], count - 2);
      return bytes;
    };
    expect(codeOf(fill(mostPhotographBytes))).toBeUndefined();
    const outcome = photographFromBytes(fill(mostPhotographBytes + 1), sha256Of);
    expect(outcome.diagnostics).toMatchObject([{ code: "photograph-too-large", data: { megabytes: "8.1", most: 8 } }]);
  });
});

describe("from a JPEG", () => {
  const told = [
    exifSegment(1),
    segment(0xe1, letters("a name space\0<x:xmpmeta>51 deg north</x:xmpmeta>")),
    segment(0xed, letters("a caption\0 8BIM a name")),
    segment(0xe2, letters("MPF\0 a second picture")),
    segment(0xe0, letters("JFXX\0 a small picture")),
    segment(0xeb, letters("JP a signed statement")),
    segment(0xfe, letters("a comment")),
  ].flat();

  test("goes everything that tells of place, time, camera and owner, wherever it stands", () => {
    expect(listOf(plain(smallJpeg([...told, ...jfif, ...told])))).toEqual(listOf(smallJpeg()));
  });

  test("goes what follows the picture's end", () => {
    const second = [...smallJpeg(exifSegment(6))];
    expect(listOf(plain(smallJpeg(jfif, second)))).toEqual(listOf(smallJpeg()));
  });

  test("goes what stands between two scans", () => {
    const [head, tail] = [listOf(smallJpeg()).slice(0, -2), [0xff, 0xd9]];
    const scan = [...segment(0xda, [1, 1, 0, 0, 63, 0]), 0x11];
    const bytes = Uint8Array.from([...head, ...segment(0xfe, letters("a comment")), ...scan, ...tail]);
    expect(listOf(plain(bytes))).toEqual([...head, ...scan, ...tail]);
  });

  test("goes the small picture that the first segment may hold", () => {
    const withSmall = segment(0xe0, [...letters("JFIF\0"), 1, 2, 0, 0, 1, 0, 1, 1, 1, 9, 9, 9]);
    expect(listOf(plain(smallJpeg(withSmall)))).toEqual(listOf(smallJpeg()));
  });

  test("stay the colour profile and the way colours were turned into numbers", () => {
    const colours = [
      ...segment(0xe2, letters("ICC_PROFILE\0\x01\x01abc")),
      ...segment(0xee, letters("Adobe\0d\0\0\0\0\x01")),
    ];
    const bytes = smallJpeg([...jfif, ...colours]);
    expect(listOf(plain(bytes))).toEqual(listOf(bytes));
  });

  test.each(["II", "MM"] as const)("stays which way is up, and nothing else of what stood beside it (%s)", (order) => {
    const kept = plain(smallJpeg([...jfif, ...exifSegment(6, order)]));
    const up = segment(0xe1, listOf(blockOfOrientation(6, "with mark")));
    expect(listOf(kept)).toEqual(listOf(smallJpeg([...jfif, ...up])));
    expect([holds(kept, "cam"), holds(kept, "north")]).toEqual([false, false]);
    expect(listOf(plain(kept))).toEqual(listOf(kept));
  });
});

describe("from a PNG", () => {
  const told = [
    ...pngChunk("tEXt", letters("Author\0somebody")),
    ...pngChunk("zTXt", letters("Comment\0\0x")),
    ...pngChunk("iTXt", letters("Description\0\0\0\0\0<x:xmpmeta/>")),
    ...pngChunk("tIME", [7, 234, 3, 14, 15, 22, 5]),
    ...pngChunk("caBX", letters("a signed statement")),
    ...pngChunk("eXIf", exifBlock(1, "MM")),
  ];

  test("goes everything that is not needed to draw it, before the data, after it, and behind the end", () => {
    expect(listOf(plain(smallPng(told, told, letters("behind the end"))))).toEqual(listOf(smallPng()));
  });

  test("stay colours, transparency and size", () => {
    const kept = ["gAMA", "cHRM", "sRGB", "iCCP", "tRNS", "pHYs", "sBIT", "bKGD"].flatMap((name) =>
      pngChunk(name, [1, 2, 3]),
    );
    expect(listOf(plain(smallPng(kept)))).toEqual(listOf(smallPng(kept)));
  });

  test("stays which way is up, with a check that holds", () => {
    const kept = plain(smallPng([], pngChunk("eXIf", exifBlock(3, "II"))));
    expect(holds(kept, "cam")).toBe(false);
    const up = listOf(chunkOf("eXIf", blockOfOrientation(3, "without mark")));
    expect(listOf(kept)).toEqual(listOf(smallPng(up)));
    expect(listOf(plain(kept))).toEqual(listOf(kept));
  });

  test("has parts whose check is the one that ends every such file [PNG §5]", () => {
    expect(listOf(chunkOf("IEND", new Uint8Array()))).toEqual([0, 0, 0, 0, ...letters("IEND"), 0xae, 0x42, 0x60, 0x82]);
  });

  test("that has a part which no reader may pass over and we do not know is refused", () => {
    expect(codeOf(smallPng(pngChunk("NEWX", [])))).toBe("photograph-broken");
  });
});

describe("from a WebP", () => {
  const exif = webpChunk("EXIF", [...letters("Exif\0\0"), ...exifBlock(1, "II")]);
  const xmp = webpChunk("XMP ", letters("<x:xmpmeta>"));

  test("goes everything that is not needed to draw it, and its flags with it", () => {
    const icc = webpChunk("ICCP", letters("abc"));
    const bytes = webpOf(vp8x(0x20 | 0x08 | 0x04), icc, vp8l, exif, xmp, webpChunk("ours", [1]));
    expect(listOf(plain(bytes))).toEqual(listOf(webpOf(vp8x(0x20), icc, vp8l)));
    expect(listOf(plain(Uint8Array.from([...webpOf(vp8l), ...letters("behind the end")])))).toEqual(
      listOf(webpOf(vp8l)),
    );
  });

  test("goes what stands inside the frames of a moving one", () => {
    const head = Array.from({ length: 16 }, () => 0);
    const frame = (...chunks: readonly (readonly number[])[]) => webpChunk("ANMF", [...head, ...chunks.flat()]);
    const animation = webpChunk("ANIM", [0, 0, 0, 0, 0, 0]);
    const bytes = webpOf(vp8x(0x02), animation, frame(vp8l, xmp));
    expect(listOf(plain(bytes))).toEqual(listOf(webpOf(vp8x(0x02), animation, frame(vp8l))));
  });

  test("stays which way is up", () => {
    const turned = webpChunk("EXIF", exifBlock(8, "MM"));
    const kept = plain(webpOf(vp8x(0x08), vp8l, turned));
    const up = webpChunk("EXIF", listOf(blockOfOrientation(8, "without mark")));
    expect(listOf(kept)).toEqual(listOf(webpOf(vp8x(0x08), vp8l, up)));
    expect(listOf(plain(kept))).toEqual(listOf(kept));
  });
});

describe("which way is up", () => {
  test("is read back from what is written, with the mark and without", () => {
    for (const orientation of [1, 2, 3, 4, 5, 6, 7, 8] as const) {
      expect(orientationFrom(blockOfOrientation(orientation, "with mark"))).toBe(orientation);
      expect(orientationFrom(blockOfOrientation(orientation, "without mark"))).toBe(orientation);
      for (const order of ["II", "MM"] as const) {
        expect(orientationFrom(Uint8Array.from(exifBlock(orientation, order)))).toBe(orientation);
      }
    }
  });

  test("is as it lies where the block says nothing that can be, and never throws", () => {
    expect(orientationFrom(Uint8Array.from(exifBlock(9, "II")))).toBe(1);
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 80 }), fc.constantFrom("II*\0", "MM\0*"), (bytes, order) => {
        expect(orientationFrom(Uint8Array.from([...letters(order), ...bytes]))).toBeGreaterThanOrEqual(1);
      }),
      { seed: 20260314 },
    );
  });
});

describe("a broken picture", () => {
  const whole: readonly Uint8Array[] = [
    smallJpeg([...jfif, ...exifSegment(6)]),
    smallPng(pngChunk("eXIf", exifBlock(6, "MM"))),
    webpOf(vp8x(0x08), vp8l, webpChunk("EXIF", exifBlock(6, "II"))),
  ];

  test("that breaks off anywhere is refused", () => {
    for (const bytes of whole) {
      for (let length = 12; length < bytes.length; length += 1) {
        expect(codeOf(bytes.subarray(0, length)), `${length} of ${bytes.length}`).toBe("photograph-broken");
      }
    }
  });

  test("however it is broken, is refused or kept, never thrown, and what is kept is kept again unchanged", () => {
    const broken = fc
      .tuple(fc.constantFrom(...whole), fc.array(fc.tuple(fc.nat(200), fc.nat(255)), { maxLength: 6 }))
      .map(([bytes, changes]) => {
        const copy = Uint8Array.from(bytes);
        for (const [at, value] of changes) copy[at % copy.length] = value;
        return copy;
      });
    fc.assert(
      fc.property(broken, (bytes) => {
        const outcome = photographFromBytes(bytes, sha256Of);
        if (!outcome.ok) return;
        expect(listOf(plain(outcome.value.bytes))).toEqual(listOf(outcome.value.bytes));
      }),
      { seed: 20260314, numRuns: 2000 },
    );
  });
});
