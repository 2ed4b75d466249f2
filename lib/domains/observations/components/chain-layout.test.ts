import { expect, test } from "vitest";
import type { ChainView } from "../working-out/view";
import { layOutChain, wrapName } from "./chain-layout";

const node = (id: string, column: number, more: object = {}) =>
  ({ id, name: id, kind: "fault", role: "effect", sight: "seen", probability: 1, column, ...more }) as ChainView["nodes"][number];

const chain: ChainView = {
  candidate: "spin",
  columns: ["before", "launch", "contact"],
  nodes: [node("told to twist the back foot for power", 0, { role: "ask" }), node("spin", 1), node("chest", 1), node("drag", 2, { sight: "not-seen" })],
  links: [
    { cause: "told to twist the back foot for power", effect: "spin", strength: 0.5, word: "often" },
    { cause: "spin", effect: "chest", strength: 0.3, word: "sometimes" },
    { cause: "chest", effect: "drag", strength: 0.1, word: "now and then" },
  ],
  text: [],
};

test("boxes never overlap and stand inside the drawing, columns from left to right", () => {
  const { nodes, width, groundY } = layOutChain(chain);
  for (const one of nodes) {
    expect(one.x).toBeGreaterThanOrEqual(0);
    expect(one.x + one.width).toBeLessThanOrEqual(width);
    expect(one.y + one.height).toBeLessThan(groundY);
    for (const other of nodes) {
      if (other === one) continue;
      const isApart = one.x + one.width < other.x || other.x + other.width < one.x || one.y + one.height < other.y || other.y + other.height < one.y;
      expect(isApart, `${one.node.id} and ${other.node.id}`).toBe(true);
    }
  }
  expect(nodes.map(({ node: { column }, x }) => [column, x]).sort(([, a = 0], [, b = 0]) => a - b).map(([column]) => column)).toEqual([0, 1, 1, 2]);
});

test("every link is drawn, thin where it is rare or leads to what was not seen", () => {
  expect(layOutChain(chain).links.map(({ isWeak }) => isWeak)).toEqual([false, false, true]);
});

test("a name is broken between words and loses none of them", () => {
  const name = "Was told to twist the back foot for power";
  expect(wrapName(name).join(" ")).toBe(name);
  expect(wrapName(name).every((line) => line.length <= 19)).toBe(true);
});
