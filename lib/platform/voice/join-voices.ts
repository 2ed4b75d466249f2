import { inputOptions, type Container } from "../video/run-tool";

/** A stretch of a voice; without a file it is silence of that length. */
export interface VoicePart {
  readonly file: { readonly path: string; readonly container: Container } | null;
  readonly fromMs: number;
  readonly toMs: number;
}

/**
 * What ffmpeg is told to lay stretches of voices one after another: inputs, and a filter whose output is `[voice]`. A voice that ends
 * early is followed by silence, so that every stretch has its full length.
 * @param firstInput number of the first of these inputs
 */
export function joinVoices(parts: readonly VoicePart[], firstInput: number): { readonly inputs: readonly string[]; readonly filter: string } {
  const files = new Map(parts.flatMap(({ file }) => (file ? [[file.path, file.container] as const] : [])));
  const paths = [...files.keys()];
  const inputs = [...files].flatMap(([path, container]) => inputOptions(path, container));
  const seconds = (ms: number) => (ms / 1000).toFixed(3);
  const one = "aformat=sample_rates=48000:channel_layouts=mono:sample_fmts=fltp";
  const stretches = parts.map(({ file, fromMs, toMs }, i) => {
    const long = seconds(toMs - fromMs);
    if (!file) return `anullsrc=r=48000:cl=mono,atrim=0:${long},${one}[v${i}]`;
    return `[${firstInput + paths.indexOf(file.path)}:a:0]asetpts=PTS-STARTPTS,${one},atrim=${seconds(fromMs)}:${seconds(toMs)},asetpts=PTS-STARTPTS,apad=whole_dur=${long},atrim=0:${long}[v${i}]`;
  });
  // An input that several stretches use is named once for each of them: ffmpeg reads a file's stream as often as it is asked for.
  return { inputs, filter: [...stretches, `${parts.map((_, i) => `[v${i}]`).join("")}concat=n=${parts.length}:v=0:a=1[voice]`].join(";") };
}
