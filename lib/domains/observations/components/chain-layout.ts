import type { ChainNode } from "@/lib/reason/chain";
import type { ChainView } from "../working-out/view";

/** All lengths in units of the drawing; one unit is one pixel unless a page makes it smaller. */
const BOX_WIDTH = 146;
const LINE = 16;
const PAD = 9;
const COLUMN_GAP = 46;
export const ROW_GAP = 16;
export const EDGE = 18;
const AXIS = 40;
/** Letters that fit a line of a box. */
const LETTERS = 19;

export interface PlacedNode {
  readonly node: ChainNode;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly lines: readonly string[];
}

export interface PlacedLink {
  readonly key: string;
  readonly path: string;
  readonly tip: string;
  readonly isWeak: boolean;
}

export interface ChainLayout {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly PlacedNode[];
  readonly links: readonly PlacedLink[];
  /** The parts of the swing; each name is centred on its place. */
  readonly labels: readonly { readonly name: string; readonly x: number; readonly y: number }[];
  /** The line that the parts stand on; null where the swing goes down the page. */
  readonly ground: string | null;
}

/** A node's box with its name in lines. */
export function boxOf(node: ChainNode): Pick<PlacedNode, "node" | "lines" | "height"> {
  const lines = wrapName(node.name);
  return { node, lines, height: lines.length * LINE + 2 * PAD };
}

/** Breaks a name into lines without breaking a word. */
export function wrapName(name: string, letters: number = LETTERS): string[] {
  const lines: string[] = [];
  for (const word of name.split(/\s+/).filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Places a chain: columns from left to right in the order of the swing, each centred on the tallest one. */
export function layOutChain(chain: ChainView): ChainLayout {
  const boxes = chain.nodes.map(boxOf);
  const inColumn = (column: number) => boxes.filter(({ node }) => node.column === column);
  const heightOf = (column: number) => inColumn(column).reduce((sum, box) => sum + box.height + ROW_GAP, -ROW_GAP);
  const tallest = Math.max(0, ...chain.columns.map((_, column) => heightOf(column)));
  const xOf = (column: number) => EDGE + column * (BOX_WIDTH + COLUMN_GAP);
  const nodes = chain.columns.flatMap((_, column) => {
    let y = EDGE + (tallest - heightOf(column)) / 2;
    return inColumn(column).map(({ node, lines, height }): PlacedNode => {
      const placed = { node, lines, height, x: xOf(column), y, width: BOX_WIDTH };
      y += height + ROW_GAP;
      return placed;
    });
  });
  // Room at the right for a link that goes round a box of the last column.
  const width = 2 * EDGE + chain.columns.length * (BOX_WIDTH + COLUMN_GAP) - COLUMN_GAP / 2;
  const groundY = tallest + 2 * EDGE + ROW_GAP;
  return {
    width,
    height: groundY + AXIS,
    nodes,
    links: chain.links.flatMap((link) => placeLink(nodes, link)),
    labels: chain.columns.map((name, column) => ({ name, x: xOf(column) + BOX_WIDTH / 2, y: groundY + 24 })),
    ground: `M4 ${groundY}H${width - 4}`,
  };
}

/** Thin: it happens now and then only, or what it leads to was not seen. */
export const isWeakLink = (link: ChainView["links"][number], to: PlacedNode) => link.word === "now and then" || to.node.sight !== "seen";

function placeLink(nodes: readonly PlacedNode[], link: ChainView["links"][number]): PlacedLink[] {
  const from = nodes.find(({ node }) => node.id === link.cause);
  const to = nodes.find(({ node }) => node.id === link.effect);
  if (!from || !to) return [];
  const isWeak = isWeakLink(link, to);
  const key = `${link.cause} ${link.effect}`;
  if (from.x === to.x) return [{ key, isWeak, ...(isNextTo(nodes, from, to) ? linkDown(from, to) : linkAround(from, to)) }];
  const [startX, startY] = [from.x + from.width, from.y + from.height / 2];
  const [endX, endY] = [to.x, to.y + to.height / 2];
  const middle = endX - COLUMN_GAP / 2;
  // A link over several columns runs straight first and bends in the last gap.
  const path = `M${startX} ${startY}C${startX + COLUMN_GAP / 2} ${startY} ${middle} ${endY} ${endX - 8} ${endY}`;
  return [{ key, isWeak, path, tip: `M${endX - 9} ${endY - 5}L${endX} ${endY}L${endX - 9} ${endY + 5}z` }];
}

function isNextTo(nodes: readonly PlacedNode[], from: PlacedNode, to: PlacedNode): boolean {
  const [top, bottom] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
  return !nodes.some((other) => other.x === from.x && other.y > top && other.y < bottom);
}

/** Between two boxes of one column with others in between: round them, on the right. */
function linkAround(from: PlacedNode, to: PlacedNode): { path: string; tip: string } {
  const x = from.x + from.width;
  const [startY, endY] = [from.y + from.height / 2, to.y + to.height / 2];
  const out = x + COLUMN_GAP * 0.6;
  return { path: `M${x} ${startY}C${out} ${startY} ${out} ${endY} ${x + 8} ${endY}`, tip: `M${x + 9} ${endY - 5}L${x} ${endY}L${x + 9} ${endY + 5}z` };
}

/** Between two boxes of one column: from the lower edge of the one to the upper edge of the other, or back up. */
function linkDown(from: PlacedNode, to: PlacedNode): { path: string; tip: string } {
  const x = from.x + from.width / 2;
  const isDown = to.y > from.y;
  const startY = isDown ? from.y + from.height : from.y;
  const endY = isDown ? to.y : to.y + to.height;
  const back = isDown ? -9 : 9;
  return { path: `M${x} ${startY}L${x} ${endY + back}`, tip: `M${x - 5} ${endY + back}L${x} ${endY}L${x + 5} ${endY + back}z` };
}

/** A loop drawn by hand around the first domino. */
export function loopAround({ x, y, width, height }: PlacedNode): string {
  const [left, right, top, bottom] = [x - 9, x + width + 9, y - 9, y + height + 9];
  const middle = y + height / 2;
  return `M${left + 14} ${middle}C${left - 6} ${top} ${x + width / 4} ${top - 6} ${x + width * 0.6} ${top}C${right + 2} ${top + 2} ${right + 4} ${middle} ${right - 4} ${bottom - 6}C${x + width / 2} ${bottom + 7} ${left + 6} ${bottom + 6} ${left} ${middle + 6}C${left - 3} ${middle - 14} ${left + 14} ${top + 4} ${left + 44} ${top - 2}`;
}
