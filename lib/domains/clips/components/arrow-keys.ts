import type { Spot } from "../rules";

/** Which way an arrow key goes on the screen, x to the right and y down. */
export const arrows: Readonly<Record<string, Spot>> = { ArrowLeft: { x: -1, y: 0 }, ArrowRight: { x: 1, y: 0 }, ArrowUp: { x: 0, y: -1 }, ArrowDown: { x: 0, y: 1 } };
