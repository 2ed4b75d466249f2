/** Pace is judged after so long, and called slow below this part of what was asked. */
export const judgeSeconds = 0.4;
export const slowPart = 0.85;
/** A page that was put aside goes on where it stood. */
export const longestTurnSeconds = 0.1;
