import { expect, test } from "vitest";
import type { ChainView } from "../working-out/view";
import { layOutChainDown } from "./chain-down";
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

test.each([["across", layOutChain], ["down a phone", layOutChainDown]])("boxes never overlap and stand inside the drawing: %s", (_, layOut) => {
  const { nodes, width, height } = layOut(chain);
  expect(nodes).toHaveLength(chain.nodes.length);
  for (const one of nodes) {
    expect(one.x).toBeGreaterThanOrEqual(0);
    expect(one.x + one.width).toBeLessThanOrEqual(width);
    expect(one.y + one.height).toBeLessThan(height);
    for (const other of nodes) {
      if (other === one) continue;
      const isApart = one.x + one.width < other.x || other.x + other.width < one.x || one.y + one.height < other.y || other.y + other.height < one.y;
      expect(isApart, `${one.node.id} and ${other.node.id}`).toBe(true);
    }
  }
});

test("the parts of the swing follow each other from left to right, on a phone from top to bottom, where the drawing fits", () => {
  const order = (by: (box: { x: number; y: number }) => number, nodes: ReturnType<typeof layOutChain>["nodes"]) => [...nodes].sort((a, b) => by(a) - by(b)).map(({ node: { column } }) => column);
  expect(order(({ x }) => x, layOutChain(chain).nodes)).toEqual([0, 1, 1, 2]);
  const down = layOutChainDown(chain);
  expect(order(({ y }) => y, down.nodes)).toEqual([0, 1, 1, 2]);
  expect(down.width).toBeLessThanOrEqual(390 - 2 * 16);
  expect(down.labels.map(({ name }) => name)).toEqual(chain.columns);
});

test("every link is drawn, thin where it is rare or leads to what was not seen", () => {
  for (const layOut of [layOutChain, layOutChainDown]) expect(layOut(chain).links.map(({ isWeak }) => isWeak)).toEqual([false, false, true]);
});

test("a name is broken between words and loses none of them", () => {
  const name = "Was told to twist the back foot for power";
  expect(wrapName(name).join(" ")).toBe(name);
  expect(wrapName(name).every((line) => line.length <= 19)).toBe(true);
});
