/** The texts of the parts. Short main clauses, plain words, no blame. */
export const en = {
  state: {
    seen: "seen",
    "not-seen": "not seen",
    "not-visible": "not visible",
    fine: "fine",
    watch: "watch",
    "talk-about": "talk about",
    "cannot-tell": "cannot tell",
    small: "small",
    clear: "clear",
    large: "large",
    suggested: "suggested",
    placed: "placed",
    kept: "kept well",
    waiting: "waits for you",
  },
  count: {
    of: (shown: number, total: number) => `${shown} of ${total}`,
    ofThatShowIt: (shown: number, total: number) => `${shown} of ${total} that show it`,
    notVisible: (count: number) => (count === 1 ? "one does not show it" : `${count} do not show it`),
  },
  progress: {
    canLeave: "You can leave; we carry on.",
  },
  toast: {
    undo: "Undo",
    close: "Close",
  },
  askFirst: "Ask first",
  noneYet: "Nothing here yet",
};
