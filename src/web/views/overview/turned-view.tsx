import { useSignal, useSignalEffect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { preferences } from "../../preferences.ts";
import { machineAddress } from "../../router.ts";
import type { TurnedPage } from "../../worker/protocol-turned.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { NumberTable } from "./number-table.tsx";
import { type Direction, type TurnedScene, turnedScene } from "./turned-scene.ts";

const atFirst: Direction = { around: 30, above: 24 };
const directions = [
  ["From the front", { around: 0, above: 0 }],
  ["From the right", { around: 90, above: 0 }],
  ["From above", { around: 0, above: 89.9 }],
  ["As at first", atFirst],
] as const;

const STEP = 10;
const NEAREST = 8;
const FARTHEST = 0.5;

/** The machine in space, to be turned by hand, by keys or by buttons. It never moves by itself. */
export function TurnedView({ machine }: { machine: string }) {
  const answer = useAnswer("turned", { machine }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  return (
    <main class="turned">
      <Heading words="In space" of={page.machine} />
      <p class="small second">
        {page.magnified} Drag it, with two fingers to make it larger; or use the arrow keys, + and −.
      </p>
      <Turned page={page} />
      <NumberTable rows={page.numbers} />
      <p class="links">
        <Link to={machineAddress(machine)}>The drawing in three views</Link>
      </p>
    </main>
  );
}

function Turned({ page }: { page: TurnedPage }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const scene = useRef<TurnedScene | null>(null);
  const direction = useSignal<Direction>(atFirst);
  const zoom = useSignal(1);
  const isMissing = useSignal(false);
  const fingers = useRef(new Map<number, Point>());

  useEffect(() => {
    if (canvas.current === null) return;
    const drawn = turnedScene(canvas.current, page.solids);
    scene.current = drawn;
    if (drawn === null) {
      isMissing.value = true;
      return;
    }
    drawn.look(direction.peek(), zoom.peek());
    drawn.resize();
    drawn.recolour();
    const sized = new ResizeObserver(() => drawn.resize());
    sized.observe(canvas.current);
    const dark = matchMedia("(prefers-color-scheme: dark)");
    const recolour = () => drawn.recolour();
    dark.addEventListener("change", recolour);
    return () => {
      sized.disconnect();
      dark.removeEventListener("change", recolour);
      drawn.dispose();
      scene.current = null;
    };
  }, [page]);
  useSignalEffect(() => scene.current?.look(direction.value, zoom.value));
  useSignalEffect(() => {
    void preferences.value.theme;
    scene.current?.recolour();
  });

  const turn = (around: number, above: number) => {
    const now = direction.value;
    direction.value = { around: now.around + around, above: Math.max(-89.9, Math.min(89.9, now.above + above)) };
  };
  const magnify = (by: number) => {
    zoom.value = Math.max(FARTHEST, Math.min(NEAREST, zoom.value * by));
  };

  if (isMissing.value)
    return (
      <p>
        This browser cannot draw in space: WebGL is missing or switched off. The drawing in three views shows the same.
      </p>
    );
  return (
    <>
      <canvas
        ref={canvas}
        class="turned-picture"
        tabIndex={0}
        role="img"
        aria-label={`${page.machine} in space, from ${inWords(direction.value)}. Arrow keys turn it, plus and minus make it larger and smaller.`}
        onKeyDown={(event) => {
          const turns: Readonly<Record<string, () => void>> = {
            ArrowLeft: () => turn(-STEP, 0),
            ArrowRight: () => turn(STEP, 0),
            ArrowUp: () => turn(0, STEP),
            ArrowDown: () => turn(0, -STEP),
            "+": () => magnify(1.25),
            // The same key without shift, where plus is shifted.
            "=": () => magnify(1.25),
            "-": () => magnify(0.8),
          };
          const does = turns[event.key];
          if (!does) return;
          event.preventDefault();
          does();
        }}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          fingers.current.set(event.pointerId, [event.clientX, event.clientY]);
        }}
        onPointerMove={(event) => {
          const [before, after] = movedFinger(fingers.current, event);
          if (before === null) return;
          if (fingers.current.size === 1) turn((before[0] - after[0]) / 3, (after[1] - before[1]) / 3);
          // Two fingers that draw apart make it larger.
          const other = [...fingers.current].find(([id]) => id !== event.pointerId)?.[1];
          if (other) magnify(distance(after, other) / Math.max(distance(before, other), 1));
        }}
        onPointerUp={({ pointerId }) => fingers.current.delete(pointerId)}
        onPointerCancel={({ pointerId }) => fingers.current.delete(pointerId)}
        onWheel={(event) => {
          event.preventDefault();
          magnify(event.deltaY < 0 ? 1.1 : 0.91);
        }}
      />
      <div class="button-row">
        {directions.map(([words, to]) => (
          <button
            type="button"
            key={words}
            onClick={() => {
              direction.value = to;
              if (to === atFirst) zoom.value = 1;
            }}
          >
            {words}
          </button>
        ))}
        <button type="button" aria-label="Larger" onClick={() => magnify(1.25)}>
          +
        </button>
        <button type="button" aria-label="Smaller" onClick={() => magnify(0.8)}>
          −
        </button>
      </div>
      <p class="note">The figure stands in front of the machine.</p>
    </>
  );
}

type Point = readonly [number, number];

/** Where a finger was that is down, and where it is now; null where it is not down. */
function movedFinger(fingers: Map<number, Point>, event: PointerEvent): readonly [Point | null, Point] {
  const before = fingers.get(event.pointerId) ?? null;
  const after: Point = [event.clientX, event.clientY];
  if (before !== null) fingers.set(event.pointerId, after);
  return [before, after];
}

function distance([a, b]: Point, [c, d]: Point): number {
  return Math.hypot(a - c, b - d);
}

/** "the front, 24° above" of a direction. */
function inWords({ around, above }: Direction): string {
  const sides = [
    "the front",
    "the front right",
    "the right",
    "the rear right",
    "the rear",
    "the rear left",
    "the left",
    "the front left",
  ];
  const side = sides[((Math.round(around / 45) % 8) + 8) % 8];
  const degrees = Math.round(above);
  return degrees === 0 ? side : `${side}, ${Math.abs(degrees)}° ${degrees > 0 ? "above" : "below"}`;
}
