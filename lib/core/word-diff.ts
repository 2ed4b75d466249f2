/** A run of words that both texts have, that only the text before has, or that only the text after has. */
export interface WordRun {
  readonly kind: "same" | "removed" | "added";
  readonly text: string;
}

/** Words with the space that follows them, so that joining the pieces gives the text back. */
function piecesOf(text: string): string[] {
  return text.match(/\s*\S+\s*?(?=\s|$)|\s+$/g) ?? [];
}

/**
 * What changed from one text to another, word by word (longest common subsequence). The runs of kind same and removed
 * joined give `before`, those of kind same and added give `after`, exactly. In each place what went stands first.
 */
export function diffWords(before: string, after: string): WordRun[] {
  const [a, b] = [piecesOf(before), piecesOf(after)];
  const width = b.length + 1;
  const longest = new Uint32Array((a.length + 1) * width);
  const at = (i: number, j: number) => longest[i * width + j] ?? 0;
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      longest[i * width + j] = a[i] === b[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
    }
  }
  const runs: { kind: WordRun["kind"]; text: string }[] = [];
  const push = (kind: WordRun["kind"], text: string) => {
    const last = runs[runs.length - 1];
    if (last?.kind === kind) last.text += text;
    else runs.push({ kind, text });
  };
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      push("same", a[i] ?? "");
      i++;
      j++;
    } else if (j >= b.length || (i < a.length && at(i + 1, j) >= at(i, j + 1))) {
      push("removed", a[i++] ?? "");
    } else {
      push("added", b[j++] ?? "");
    }
  }
  return runs;
}
