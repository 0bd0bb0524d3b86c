import {
  BufferGeometry,
  Color,
  DoubleSide,
  Float32BufferAttribute,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  OrthographicCamera,
  Scene,
  ShapeUtils,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import type { Place } from "../../../core/drawing/machine-parts.ts";
import type { Solid, SolidMachine } from "../../../core/drawing/solids.ts";
import { standingInFront } from "./standing-in-front.ts";

/** From where it is looked at: degrees about the upright and above the horizontal; the front is 0, the right 90. */
export interface Direction {
  readonly around: number;
  readonly above: number;
}

export interface TurnedScene {
  look(direction: Direction, zoom: number): void;
  /** Takes the page's colours anew and draws. */
  recolour(): void;
  resize(): void;
  dispose(): void;
}

/** Draws only when something changes. Null where the browser cannot draw in space. */
export function turnedScene(canvas: HTMLCanvasElement, machine: SolidMachine): TurnedScene | null {
  const context = canvas.getContext("webgl2", { antialias: true });
  if (context === null) return null;
  const renderer = new WebGLRenderer({ canvas, context });
  const scene = new Scene();
  const paper = new MeshBasicMaterial({
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
  const ink = new LineBasicMaterial();
  const thin = new LineBasicMaterial({ transparent: true, opacity: 0.6 });
  const group = new Group();
  for (const solid of machine.estimate ?? machine.nominal) {
    group.add(new Mesh(facesOf(solid), paper), new LineSegments(edgesOf(solid), ink));
  }
  if (machine.estimate) for (const solid of machine.nominal) group.add(new LineSegments(edgesOf(solid), thin));
  group.add(new LineSegments(geometryOf(travelEdges(machine.travel)), thin));
  const { middle, radius, front } = sizeOf(machine);
  group.add(new LineSegments(geometryOf(standingInFront([middle.x, front, machine.travel[0][2]], 0.22 * radius)), ink));
  scene.add(group);
  const camera = new OrthographicCamera();
  camera.up.set(0, 0, 1);
  let direction: Direction = { around: 0, above: 0 };
  let zoom = 1;

  const draw = () => {
    const [around, above] = [direction.around, direction.above].map((degrees) => (degrees * Math.PI) / 180);
    const { clientWidth: width, clientHeight: height } = canvas;
    const half = radius / zoom;
    const wide = width >= height ? width / Math.max(height, 1) : 1;
    const tall = width >= height ? 1 : height / Math.max(width, 1);
    camera.left = -half * wide;
    camera.right = half * wide;
    camera.top = half * tall;
    camera.bottom = -half * tall;
    camera.near = 0;
    camera.far = 8 * radius;
    const from = new Vector3(
      Math.sin(around) * Math.cos(above),
      -Math.cos(around) * Math.cos(above),
      Math.sin(above),
    ).multiplyScalar(4 * radius);
    camera.position.copy(middle).add(from);
    camera.lookAt(middle);
    camera.updateProjectionMatrix();
    renderer.render(scene, camera);
  };
  const recolour = () => {
    const style = getComputedStyle(canvas);
    const colour = (name: string) => new Color(style.getPropertyValue(name).trim());
    scene.background = colour("--paper");
    paper.color = colour("--paper");
    ink.color = colour("--ink");
    thin.color = colour("--ink-2");
    draw();
  };
  const resize = () => {
    renderer.setPixelRatio(devicePixelRatio);
    // The size on the page is the style sheet's business.
    renderer.setSize(canvas.clientWidth, canvas.clientHeight, false);
    draw();
  };
  return {
    look: (next, nextZoom) => {
      direction = next;
      zoom = nextZoom;
      draw();
    },
    recolour,
    resize,
    dispose: () => {
      group.traverse((child) => {
        if (child instanceof Mesh || child instanceof LineSegments) child.geometry.dispose();
      });
      for (const material of [paper, ink, thin]) material.dispose();
      renderer.dispose();
    },
  };
}

function facesOf({ rings }: Solid): BufferGeometry {
  const corners: number[] = [];
  const put = (...places: readonly Place[]) => {
    for (const place of places) corners.push(...place);
  };
  for (let r = 1; r < rings.length; r++) {
    rings[r].forEach((_, i) => {
      const j = (i + 1) % rings[r].length;
      put(rings[r - 1][i], rings[r - 1][j], rings[r][j], rings[r - 1][i], rings[r][j], rings[r][i]);
    });
  }
  for (const ring of [rings[0], rings[rings.length - 1]])
    for (const [a, b, c] of ShapeUtils.triangulateShape(flattened(ring), [])) put(ring[a], ring[b], ring[c]);
  return geometryOf(corners);
}

/** A ring in its own plane, for what cuts it into triangles: along the two axes in which it is widest. */
function flattened(ring: readonly Place[]): Vector2[] {
  const spans = [0, 1, 2].map((axis) => {
    const values = ring.map((place) => place[axis]);
    return { axis, span: Math.max(...values) - Math.min(...values) };
  });
  const [a, b] = spans.sort((first, second) => second.span - first.span).map(({ axis }) => axis);
  return ring.map((place) => new Vector2(place[a], place[b]));
}

function edgesOf({ rings, round }: Solid): BufferGeometry {
  const corners: number[] = [];
  for (const ring of [rings[0], rings[rings.length - 1]])
    ring.forEach((place, i) => {
      corners.push(...place, ...ring[(i + 1) % ring.length]);
    });
  if (!round)
    for (let r = 1; r < rings.length; r++)
      rings[r].forEach((place, i) => {
        corners.push(...rings[r - 1][i], ...place);
      });
  return geometryOf(corners);
}

function geometryOf(corners: readonly number[]): BufferGeometry {
  return new BufferGeometry().setAttribute("position", new Float32BufferAttribute(corners, 3));
}

function travelEdges([low, high]: SolidMachine["travel"]): readonly number[] {
  const corners: number[] = [];
  for (const axis of [0, 1, 2]) {
    const [b, c] = [(axis + 1) % 3, (axis + 2) % 3];
    for (const second of [low, high])
      for (const third of [low, high])
        for (const end of [low, high]) {
          const place = [0, 0, 0];
          place[axis] = end[axis];
          place[b] = second[b];
          place[c] = third[c];
          corners.push(...place);
        }
  }
  return corners;
}

function sizeOf({ nominal, estimate }: SolidMachine): { middle: Vector3; radius: number; front: number } {
  const places = [...nominal, ...(estimate ?? [])].flatMap(({ rings }) => rings.flat());
  const low = new Vector3(Infinity, Infinity, Infinity);
  const high = low.clone().negate();
  for (const place of places) {
    low.min(new Vector3(...place));
    high.max(new Vector3(...place));
  }
  const middle = low.clone().add(high).multiplyScalar(0.5);
  return { middle, radius: 0.46 * low.distanceTo(high), front: low.y };
}
