declare module "webvtt-parser" {
  interface CueNode {
    readonly type: string;
    readonly value?: string;
    readonly name?: string;
    readonly children?: readonly CueNode[];
  }
  interface ParsedCue {
    readonly id: string;
    readonly startTime: number;
    readonly endTime: number;
    readonly text: string;
    readonly tree: { readonly children: readonly CueNode[] };
  }
  interface Parser {
    parse(input: string, mode: string): { readonly cues: readonly ParsedCue[]; readonly errors: readonly { readonly message: string; readonly line: number; readonly col?: number }[] };
  }
  /** A module of the older kind: it has one export that holds everything. */
  const webvtt: { readonly WebVTTParser: new (characterNames?: Readonly<Record<string, string>>) => Parser };
  export default webvtt;
}

declare module "webvtt-parser/html-entities.json" {
  const characterNames: Readonly<Record<string, string>>;
  export default characterNames;
}
