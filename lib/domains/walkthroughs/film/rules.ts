import { placementOf, toScreen, type Placement, type Spot } from "@/lib/domains/clips/rules";
import type { MarkShape } from "@/lib/domains/clips/view";
import type { Stand } from "../list/rules";
import type { TakeList } from "../list/schema";

/** Size of the film and of stills, in pixels. */
export const FILM_SIZE = { width: 1280, height: 720 } as const;
const FOOT_HEIGHT = 96;
const GAP = 4;

/** A picture by clip and frame; null where it may not be shown. */
export type PictureOf = (clip: number, frame: number) => string | null;

interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Where the pictures of so many clips stand: one large, two beside each other, three and four in a square. */
export function areasOf(count: number, hasFoot: boolean): readonly Area[] {
  const { width } = FILM_SIZE;
  const height = FILM_SIZE.height - (hasFoot ? FOOT_HEIGHT : 0);
  if (count === 1) return [{ x: 0, y: 0, width, height }];
  const across = (width - GAP) / 2;
  const down = count === 2 ? height : (height - GAP) / 2;
  return Array.from({ length: count }, (_, i) => ({ x: (i % 2) * (across + GAP), y: Math.floor(i / 2) * (down + GAP), width: across, height: down }));
}

/**
 * What is painted for one instant, in the form that the painter takes: frames in their places, what was drawn over them, captions.
 * @param whyNot sentence by clip that stands in the place of a picture that may not be shown
 */
export function sceneOf(list: TakeList, stand: Stand, pictureOf: PictureOf, whyNot: (clip: number) => string | null, words: { readonly said: string | null; readonly hasFoot: boolean }) {
  const over = stand.over;
  const areas = areasOf(over ? 1 : list.clips.length, words.hasFoot);
  const whole = areas[0] ?? { x: 0, y: 0, ...FILM_SIZE };
  const placed = list.clips.map((clip, i) => {
    const area = over ? whole : (areas[i] ?? whole);
    const { zoom = 1, x = clip.widthPx / 2, y = clip.heightPx / 2 } = stand.looks[i] ?? {};
    const own = placementOf({ zoom, centre: { x, y } }, { width: clip.widthPx, height: clip.heightPx }, area, stand.flips[i]);
    return { clip, i, area, own };
  });
  const [first] = placed;
  const all = placed.map(({ clip, i, area, own }) => ({ clip, i, area, placement: over && i > 0 && first ? placementUnder(list, over, i, first.own, stand.flips[i] ?? false) : own }));
  return {
    ...FILM_SIZE,
    frames: all.map(({ clip, i, area, placement }) => ({
      area, picture: pictureOf(i, stand.frames[i] ?? 0), widthPx: clip.widthPx, heightPx: clip.heightPx, scale: placement.scale, dx: placement.dx, dy: placement.dy,
      isFlipped: placement.isFlipped ?? false, opacity: over && i > 0 ? over.opacity : 1,
    })),
    strokes: all.flatMap(({ i, area, placement }) =>
      whyNot(i) === null ? stand.marks.filter((it) => it.clip === i && it.frame === stand.frames[i]).map(({ shape }) => strokeOf(shape, area, placement)) : [],
    ),
    labels: [
      ...(over ? [{ area: whole, text: list.clips.map((it) => it.caption).join(" · ") }] : all.map(({ clip, area, i }) => ({ area, text: `${i + 1} · ${clip.caption}` }))),
      ...(over ? [] : all.flatMap(({ i, area }) => (whyNot(i) === null ? [] : [{ area: { ...area, y: area.y + area.height / 2 - 16, height: 32 }, text: whyNot(i) ?? "" }]))),
    ],
    foot: words.hasFoot ? { area: { x: 0, y: FILM_SIZE.height - FOOT_HEIGHT, width: FILM_SIZE.width, height: FOOT_HEIGHT }, text: words.said ?? "" } : null,
  };
}

/** Where a clip lies over the first one: its place on the first one's place, its torso as long. */
function placementUnder(list: TakeList, over: NonNullable<Stand["over"]>, i: number, first: Placement, isFlipped: boolean): Placement {
  const [ours, theirs] = [over.torsosPx[0], over.torsosPx[i]];
  const larger = ours && theirs ? ours / theirs : (list.clips[0]?.heightPx ?? 1) / (list.clips[i]?.heightPx ?? 1);
  const scale = first.scale * larger;
  const on = toScreen(first, over.spots[0] ?? { x: 0, y: 0 });
  const own = over.spots[i] ?? { x: 0, y: 0 };
  return { scale, dx: on.x - (isFlipped ? -own.x : own.x) * scale, dy: on.y - own.y * scale, isFlipped };
}

function strokeOf(shape: MarkShape, area: Area, placement: Placement) {
  const at = (spot: Spot) => {
    const on = toScreen(placement, spot);
    return { x: on.x + area.x, y: on.y + area.y };
  };
  if (shape.kind === "words") return { area, kind: "tag" as const, ...at(shape), text: shape.text };
  if (shape.kind === "ring") return { area, kind: "ellipse" as const, ...at({ x: shape.cx, y: shape.cy }), rx: shape.rx * placement.scale, ry: shape.ry * placement.scale };
  const places =
    shape.kind === "pen" ? shape.places.map(([x, y]) => ({ x, y }))
    : shape.kind === "line" ? [{ x: shape.x1, y: shape.y1 }, { x: shape.x2, y: shape.y2 }]
    : [{ x: shape.x1, y: shape.y1 }, { x: shape.x2, y: shape.y2 }, { x: shape.x3, y: shape.y3 }];
  return { area, kind: "line" as const, places: places.map(at).map(({ x, y }) => [x, y] as const) };
}
