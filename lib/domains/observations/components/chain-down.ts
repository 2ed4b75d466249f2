import type { ChainView } from "../working-out/view";
import { boxOf, EDGE, isWeakLink, ROW_GAP, type ChainLayout, type PlacedLink, type PlacedNode } from "./chain-layout";

/** As wide as a phone's page. */
const WIDTH = 344;
const BOX_WIDTH = 148;
const ACROSS = 2;
/** Between two parts of the swing: an arrow and the part's name. */
const PART_GAP = 46;
const LABEL_ABOVE = 10;

/** Places a chain for a phone: the swing goes down the page, at most two boxes beside each other. */
export function layOutChainDown(chain: ChainView): ChainLayout {
  const nodes: PlacedNode[] = [];
  const labels: ChainLayout["labels"][number][] = [];
  let y = EDGE;
  chain.columns.forEach((name, column) => {
    const boxes = chain.nodes.filter((node) => node.column === column).map(boxOf);
    if (boxes.length === 0) return;
    y += PART_GAP - ROW_GAP;
    labels.push({ name, x: WIDTH / 2, y: y - LABEL_ABOVE });
    for (let from = 0; from < boxes.length; from += ACROSS) {
      const line = boxes.slice(from, from + ACROSS);
      const height = Math.max(...line.map((box) => box.height));
      line.forEach((box, k) => nodes.push({ ...box, width: BOX_WIDTH, x: k === 0 ? EDGE : WIDTH - EDGE - BOX_WIDTH, y: y + (height - box.height) / 2 }));
      y += height + ROW_GAP;
    }
  });
  return { width: WIDTH, height: y + EDGE, nodes, links: chain.links.flatMap((link) => placeLink(nodes, link)), labels, ground: null };
}

function placeLink(nodes: readonly PlacedNode[], link: ChainView["links"][number]): PlacedLink[] {
  const from = nodes.find(({ node }) => node.id === link.cause);
  const to = nodes.find(({ node }) => node.id === link.effect);
  if (!from || !to) return [];
  const isBeside = from.y < to.y + to.height && to.y < from.y + from.height;
  const isHidden = from.x === to.x && nodes.some(({ x, y }) => x === from.x && y > Math.min(from.y, to.y) && y < Math.max(from.y, to.y));
  return [{ key: `${link.cause} ${link.effect}`, isWeak: isWeakLink(link, to), ...(isBeside ? across(from, to) : isHidden ? around(from, to) : along(from, to)) }];
}

/** Past the boxes in between, at the outer edge. */
function around(from: PlacedNode, to: PlacedNode): { path: string; tip: string } {
  const isLeft = from.x < WIDTH / 2;
  const way = isLeft ? 1 : -1;
  const [edge, out] = isLeft ? [from.x, 0] : [from.x + from.width, WIDTH];
  const [startY, endY] = [from.y + from.height / 2, to.y + to.height / 2];
  return {
    path: `M${edge} ${startY}C${out} ${startY} ${out} ${endY} ${edge - 8 * way} ${endY}`,
    tip: `M${edge - 9 * way} ${endY - 5}L${edge} ${endY}L${edge - 9 * way} ${endY + 5}z`,
  };
}

function across(from: PlacedNode, to: PlacedNode): { path: string; tip: string } {
  const way = to.x > from.x ? 1 : -1;
  const [startX, endX] = way > 0 ? [from.x + from.width, to.x] : [from.x, to.x + to.width];
  const [startY, endY] = [from.y + from.height / 2, to.y + to.height / 2];
  return { path: `M${startX} ${startY}L${endX - 8 * way} ${endY}`, tip: `M${endX - 9 * way} ${endY - 5}L${endX} ${endY}L${endX - 9 * way} ${endY + 5}z` };
}

function along(from: PlacedNode, to: PlacedNode): { path: string; tip: string } {
  const way = to.y > from.y ? 1 : -1;
  const [startX, endX] = [from.x + from.width / 2, to.x + to.width / 2];
  const [startY, endY] = way > 0 ? [from.y + from.height, to.y] : [from.y, to.y + to.height];
  const bend = 22 * way;
  return {
    path: `M${startX} ${startY}C${startX} ${startY + bend} ${endX} ${endY - bend} ${endX} ${endY - 8 * way}`,
    tip: `M${endX - 5} ${endY - 9 * way}L${endX} ${endY}L${endX + 5} ${endY - 9 * way}z`,
  };
}
