import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCaptions, writeCaptions } from "./rules";

// Examples of the standard: W3C, WebVTT, sections 1.1 to 1.6 (introduction), which show what a conforming file looks like.
const comments = `WEBVTT - Translation of that film I like

NOTE
This translation was done by Kyle so that
some friends can watch it with their parents.

1
00:02:15.000 --> 00:02:20.000
- Ta en kopp varmt te.
- Det är inte varmt.

2
00:02:20.000 --> 00:02:25.000
- Har en kopp te.
- Det smakar som te.

NOTE This last line may not translate well.

3
00:02:25.000 --> 00:02:30.000
- Ta en kopp
`;
const voices = `WEBVTT

00:00.000 --> 00:02.000
<v.first.loud Esme>It’s a blue apple tree!

00:02.000 --> 00:04.000
<v Mary>No way!

00:04.000 --> 00:06.000
<v Esme>Hee!</v> <i>laughter</i>

00:06.000 --> 00:08.000
<v.loud Mary>That’s awesome!
`;
const styles = `WEBVTT

STYLE
::cue {
  background-image: linear-gradient(to bottom, dimgray, lightgray);
  color: papayawhip;
}
/* Style blocks cannot use blank lines nor "dash dash greater than" */

NOTE comment blocks can be used between style blocks.

STYLE
::cue(b) {
  color: peachpuff;
}

00:00:00.000 --> 00:00:10.000
- Hello <b>world</b>.

NOTE style blocks cannot appear after the first cue.
`;
const placed = `WEBVTT

00:00:00.000 --> 00:00:04.000 position:10%,line-left align:left size:35%
Where did he go?

00:00:03.000 --> 00:00:06.500 position:90% align:right size:35%
I think he went down this lane.

00:00:04.000 --> 00:00:06.500 position:45%,line-right align:center size:35%
What are you waiting for?
`;
const languages = `WEBVTT

04:02.500 --> 04:05.000
J’ai commencé le basket à l'âge de 13, 14 ans

04:05.001 --> 04:07.800
Sur les <i.foreignphrase><lang en>playground</lang></i>, ici à Montpellier
`;
const region = `WEBVTT

REGION
id:fred
width:40%
lines:3
regionanchor:0%,100%
viewportanchor:10%,90%
scroll:up

00:00:00.000 --> 00:00:20.000 region:fred align:left
<v Fred>Hi, my name is Fred
`;

const said = (text: string) => {
  const { cues, problem } = readCaptions(text);
  expect(problem).toBeNull();
  return cues?.map(({ fromMs, toMs, text: words }) => [fromMs, toMs, words]);
};

describe("captions as the standard's examples write them", () => {
  test("comments and names of cues are left out, two lines stay two", () => {
    expect(said(comments)).toEqual([
      [135_000, 140_000, "- Ta en kopp varmt te.\n- Det är inte varmt."],
      [140_000, 145_000, "- Har en kopp te.\n- Det smakar som te."],
      [145_000, 150_000, "- Ta en kopp"],
    ]);
  });

  test("who speaks stands before the words", () => {
    expect(said(voices)).toEqual([[0, 2000, "Esme: It’s a blue apple tree!"], [2000, 4000, "Mary: No way!"], [4000, 6000, "Esme: Hee! laughter"], [6000, 8000, "Mary: That’s awesome!"]]);
  });

  test("styles, regions and places are left out, words in them are kept", () => {
    expect(said(styles)).toEqual([[0, 10_000, "- Hello world."]]);
    expect(said(placed)?.map(([from, , words]) => [from, words])).toEqual([[0, "Where did he go?"], [3000, "I think he went down this lane."], [4000, "What are you waiting for?"]]);
    expect(said(languages)).toEqual([[242_500, 245_000, "J’ai commencé le basket à l'âge de 13, 14 ans"], [245_001, 247_800, "Sur les playground, ici à Montpellier"]]);
    expect(said(region)).toEqual([[0, 20_000, "Fred: Hi, my name is Fred"]]);
  });

  test("character references stand for their characters", () => {
    expect(said("WEBVTT\n\n00:00.000 --> 00:01.000\nl&eacute;ger &amp; fast &lt;3")).toEqual([[0, 1000, "léger & fast <3"]]);
  });

  test.each([
    ["a file of something else", "1\n00:00:00,000 --> 00:00:01,000\nx"],
    ["a cue that ends before it begins", "WEBVTT\n\n00:02.000 --> 00:01.000\nx"],
    ["a time that is none", "WEBVTT\n\n00:61.000 --> 01:02.000\nx"],
    ["an open tag", "WEBVTT\n\n00:00.000 --> 00:01.000\n<b>x"],
    ["an empty file", ""],
  ])("is refused with the line: %s", (_what, text) => {
    expect(readCaptions(text)).toMatchObject({ cues: null, problem: expect.stringContaining("line") as string });
  });
});

test("what is written is read again as it was, whatever the words hold", () => {
  const words = fc.string({ unit: "grapheme", minLength: 1, maxLength: 80 }).map((it) => it.replace(/[\0\r\f\v\u0085\u2028\u2029\t]/g, " ").replace(/ *\n\s*/g, "\n").trim()).filter((it) => it !== "");
  const cue = fc.tuple(fc.integer({ min: 0, max: 7_200_000 }), fc.integer({ min: 1, max: 60_000 }), words).map(([fromMs, long, text]) => ({ fromMs, toMs: fromMs + long, text }));
  fc.assert(
    fc.property(fc.array(cue, { maxLength: 8 }), (given) => {
      const cues = [...given].sort((a, b) => a.fromMs - b.fromMs || a.toMs - b.toMs || (a.text < b.text ? -1 : 1));
      expect(readCaptions(writeCaptions(cues))).toEqual({ cues, problem: null });
    }),
  );
  expect(writeCaptions([{ fromMs: 3_723_004, toMs: 3_724_000, text: "a --> b\n\n<script>" }])).toBe("WEBVTT\n\n01:02:03.004 --> 01:02:04.000\na --&gt; b\n&lt;script&gt;\n");
});
