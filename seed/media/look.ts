import { seededRandom } from "@/lib/core/random";
import { CLOTHES, SCENES, type SwingSpec } from "./spec";

/** What a surface is: its colour (sRGB 0–255) and its shine. */
export interface Material {
  readonly colour: readonly [number, number, number];
  readonly shine: number;
}

/** Places in the list of materials. */
export const MATERIAL = {
  skin: 0, shirt: 1, trim: 2, trousers: 3, belt: 4, sock: 5, shoe: 6, sole: 7, helmet: 8, hair: 9, glove: 10, handle: 11,
  barrel: 12, ball: 13, tee: 14, teeTop: 15, white: 16, dark: 17, lip: 18, gloveBack: 19, brow: 20,
} as const;

type Colour = readonly [number, number, number];

/** Clothes: shirt, trim, trousers, belt and socks, helmet. Quiet, of no team. */
const WARDROBE: Record<(typeof CLOTHES)[number], readonly [Colour, Colour, Colour, Colour, Colour]> = {
  navy: [[58, 78, 112], [214, 208, 192], [216, 214, 206], [38, 46, 64], [36, 46, 70]],
  maroon: [[128, 62, 66], [226, 214, 196], [190, 190, 188], [52, 40, 42], [86, 36, 42]],
  forest: [[70, 104, 88], [222, 216, 198], [222, 219, 210], [40, 54, 48], [38, 62, 54]],
  slate: [[206, 203, 193], [84, 96, 110], [92, 101, 114], [44, 50, 58], [52, 62, 74]],
  sand: [[212, 196, 164], [92, 74, 58], [104, 98, 96], [62, 50, 42], [70, 58, 50]],
  sky: [[150, 178, 198], [244, 242, 236], [86, 96, 116], [44, 54, 74], [54, 76, 104]],
};

const SKINS: readonly Colour[] = [
  [236, 196, 166], [222, 176, 142], [202, 152, 116], [176, 124, 90], [146, 98, 68], [116, 76, 52], [92, 60, 44],
];
const HAIRS: readonly Colour[] = [[36, 28, 24], [62, 44, 32], [96, 68, 44], [130, 98, 62], [24, 22, 24]];

/** The look of a spec: what it names, and the rest by its seed. */
export function wardrobeOf(spec: Pick<SwingSpec, "seed" | "look">): { materials: readonly Material[]; scene: (typeof SCENES)[number]; isWood: boolean } {
  const random = seededRandom(`look ${spec.seed}`);
  const pick = <T>(list: readonly T[], fallback: T): T => list[Math.floor(random.uniform() * list.length)] ?? fallback;
  const skin = pick(SKINS, [202, 152, 116]);
  const hair = pick(skin[0] < 150 ? [HAIRS[0] ?? skin, HAIRS[4] ?? skin] : HAIRS, [36, 28, 24]);
  const chosenClothes = pick(CLOTHES, "slate");
  const chosenScene = pick(SCENES, "cage");
  const isWood = random.uniform() < 0.5;
  const [shirt, trim, trousers, belt, helmet] = WARDROBE[spec.look.clothes ?? chosenClothes];
  const plain = (colour: Colour, shine = 0): Material => ({ colour, shine });
  const lip: Colour = [skin[0] * 0.72, skin[1] * 0.58, skin[2] * 0.56];
  const materials: Material[] = [
    plain(skin, 0.04), plain(shirt), plain(trim), plain(trousers), plain(belt, 0.1), plain(trim), plain([44, 46, 50], 0.12),
    plain([196, 192, 184]), plain(helmet, 0.35), plain(hair, 0.05), plain([54, 56, 60]), plain([46, 42, 40]),
    isWood ? plain([205, 160, 104], 0.15) : plain([120, 130, 140], 0.4), plain([244, 242, 234], 0.05), plain([58, 60, 64]),
    plain([34, 34, 36]), plain([240, 238, 232], 0.3), plain([34, 26, 22], 0.3), plain(lip), plain(trim), plain(hair),
  ];
  return { materials, scene: spec.look.scene ?? chosenScene, isWood };
}
