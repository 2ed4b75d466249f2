import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { afterAll, describe, expect, test } from "vitest";
import { hearContact } from "@/lib/platform/video/hear-contact";
import { makeCuts, makeSteppingCopy, makeStill } from "@/lib/platform/video/make-pictures";
import { probeVideo } from "@/lib/platform/video/probe";
import { readFrameTimes } from "@/lib/platform/video/read-frame-times";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

const probePicture = (file: string) =>
  execFileSync("ffprobe", ["-v", "error", "-show_entries", "stream=width,height", "-of", "csv=p=0", file]).toString().trim().split(",").map(Number);
const readWhole = async (file: string) => {
  const probe = await probeVideo(file);
  return { probe, times: await readFrameTimes(file, probe) };
};

/** Grey levels of the four quarters of a picture: upper left, upper right, lower left, lower right. */
const quarters = (file: string) => [...execFileSync("ffmpeg", ["-v", "error", "-i", file, "-vf", "scale=2:2:flags=area,format=gray", "-frames:v", "1", "-f", "rawvideo", "-"])];

describe("a file is hostile until probed", () => {
  const whole = () => readFileSync(room.plain("whole.mp4", { frames: 60 }));
  const indexFirst = () => readFileSync(room.make("first.mp4", "-i", room.plain("whole2.mp4", { frames: 60 }), "-c", "copy", "-movflags", "+faststart"));
  const half = (bytes: Buffer) => bytes.subarray(0, bytes.length >> 1);
  test.each<[string, string, () => string]>([
    ["a text file named .mp4", "text", () => room.write("notes.mp4", "Lesson notes: stay back on it.\n".repeat(20))],
    ["an empty file", "empty", () => room.write("empty.mp4", "")],
    ["a file with sound only", "no-picture", () => room.make("sound.mp4", ...room.lavfi("sine=duration=1"), "-c:a", "aac")],
    ["a video without frames", "no-frames", () => room.frameless("none.mp4")],
    ["a video of four hours", "too-long", () => room.make("long.mp4", ...room.lavfi("color=size=16x16:rate=1/60"), "-t", "14400", ...room.h264)],
    ["a file cut in half with its index last", "cut", () => room.write("cut.mp4", half(whole()))],
    ["a file cut in half with its index first", "cut", () => room.write("cut-first.mp4", half(indexFirst()))],
    ["a codec that is not opened here", "codec", () => room.make("prores.mov", ...room.lavfi("testsrc=size=64x64:rate=30"), "-frames:v", "3", "-c:v", "prores_ks")],
    ["a picture that is too large", "too-large-picture", () => room.make("large.mp4", ...room.lavfi("color=size=4200x4200:rate=1"), "-frames:v", "1", ...room.h264)],
    ["another container under the name of .mp4", "not-a-video", () => room.make("other.mp4", ...room.lavfi("testsrc=size=64x64:rate=30"), "-frames:v", "3", ...room.h264, "-f", "matroska")],
    ["a play list that names another file", "text", () => room.write("list.mp4", "#EXTM3U\n#EXTINF:1,\nfile:///etc/passwd\n")],
    ["bytes by chance", "not-a-video", () => room.write("chance.mp4", Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919) % 251))],
  ])("%s is refused as %s, in a sentence", async (_what, reason, make) => {
    const refusal = await readWhole(make()).catch((error: unknown) => error);
    expect(refusal).toMatchObject({ reason });
    expect((refusal as Error).message).toMatch(/^[A-Z].*\.$/);
  });
});

describe("what is read of a good file", () => {
  test("its frames' times are exact integers of its own time base", async () => {
    const { probe, times } = await readWhole(room.plain("even.mp4", { fps: 240, frames: 48 }));
    const step = times.timeBaseDen / times.timeBaseNum / 240;
    expect(times.ticks).toEqual(Array.from({ length: 48 }, (_, i) => i * step));
    expect(probe).toMatchObject({ container: "mp4", codec: "h264", widthPx: 320, heightPx: 240, rotationDeg: 0, hasSound: false });
  });

  test("frames that are stored out of order are given in the order in which they are shown", async () => {
    const file = room.make("b-frames.mov", ...room.lavfi("testsrc=size=320x240:rate=60"), "-frames:v", "40", "-c:v", "libx264", "-bf", "3", "-pix_fmt", "yuv420p");
    const { probe, times } = await readWhole(file);
    expect(probe.container).toBe("mov");
    expect(times.ticks).toHaveLength(40);
    expect(times.ticks).toEqual([...times.ticks].sort((a, b) => a - b));
  });

  test("a picture that the phone turned is measured and copied upright", async () => {
    const lying = room.make("lying.mp4", ...room.lavfi("color=black:size=320x240:rate=30"), "-vf", "drawbox=x=0:y=0:w=160:h=120:color=white:t=fill", "-frames:v", "4", ...room.h264);
    const file = room.turned("turned.mp4", lying, 240);
    const { probe, times } = await readWhole(file);
    expect(probe).toMatchObject({ widthPx: 240, heightPx: 320, rotationDeg: 90 });
    await makeSteppingCopy(file, probe, times, room.at("turned-copy.mp4"));
    expect(await probeVideo(room.at("turned-copy.mp4"))).toMatchObject({ widthPx: 240, heightPx: 320, rotationDeg: 0 });
    expect(quarters(room.at("turned-copy.mp4")).map((grey) => grey > 128)).toEqual([false, true, false, false]);
  });
});

describe("the stepping copy", () => {
  test("keeps every frame of a clip of uneven times, at the same distances", async () => {
    const file = room.uneven("uneven.mp4");
    const { probe, times } = await readWhole(file);
    expect(times.ticks).toHaveLength(178);
    expect(new Set(times.ticks.slice(1).map((tick, i) => tick - (times.ticks[i] ?? 0))).size).toBeGreaterThan(1);
    await makeSteppingCopy(file, probe, times, room.at("uneven-copy.mp4"));
    const copy = await readWhole(room.at("uneven-copy.mp4"));
    const seconds = (of: typeof times) => of.ticks.map((tick) => ((tick - (of.ticks[0] ?? 0)) * of.timeBaseNum) / of.timeBaseDen);
    expect(copy.times.ticks).toHaveLength(178);
    seconds(copy.times).forEach((second, i) => expect(Math.abs(second - (seconds(times)[i] ?? NaN))).toBeLessThan(1 / 90000));
  });

  test("is upright, at most 1280 on its longer side, and carries nothing the phone wrote beside the picture", async () => {
    const tall = room.make("tall.mp4", ...room.lavfi("testsrc=size=1920x1080:rate=30"), "-frames:v", "4", ...room.h264, "-metadata", "title=Ada", "-metadata", "location=+41.0-087.0/");
    const { probe, times } = await readWhole(tall);
    await makeSteppingCopy(tall, probe, times, room.at("tall-copy.mp4"));
    expect(await probeVideo(room.at("tall-copy.mp4"))).toMatchObject({ widthPx: 1280, heightPx: 720, rotationDeg: 0 });
    expect(readFileSync(room.at("tall-copy.mp4"), "latin1")).not.toMatch(/Ada|\+41\.0/);
  });

  test("a still shows exactly the frame that was asked for, also where times are uneven", async () => {
    const file = room.uneven("uneven2.mp4");
    const { probe, times } = await readWhole(file);
    await makeSteppingCopy(file, probe, times, room.at("still-copy.mp4"));
    for (const frame of [0, 1, 2, 7, 8, 77, 176, 177]) {
      await makeStill(room.at("still-copy.mp4"), times, frame, room.at("still.jpg"));
      expect(room.readIndex(room.at("still.jpg"))).toBe(frame);
    }
  });

  test("several stills cut in one pass are exactly the frames that were asked for, each cut by the same area", async () => {
    const file = room.uneven("uneven3.mp4");
    const { probe, times } = await readWhole(file);
    await makeSteppingCopy(file, probe, times, room.at("cuts-copy.mp4"));
    const frames = [0, 1, 8, 77, 177];
    const whole = await makeCuts(room.at("cuts-copy.mp4"), frames, { left: 0, top: 0, width: 1, height: 1 }, room.folder);
    expect(whole.map((path) => room.readIndex(path))).toEqual(frames);
    const [left] = await makeCuts(room.at("cuts-copy.mp4"), [77], { left: 0, top: 0, width: 0.5, height: 1 }, room.folder);
    expect(await probePicture(left ?? "")).toEqual([160, 64]);
  });

  test("a still is exact where the sound begins before the picture and the first frame comes late", async () => {
    const file = room.make(
      "late.mp4", "-itsoffset", "0.35", "-i", room.uneven("late-picture.mp4"), ...room.lavfi("sine=duration=2"), "-map", "0:v", "-map", "1:a", "-c:v", "copy", "-c:a", "aac",
    );
    const { probe, times } = await readWhole(file);
    await makeSteppingCopy(file, probe, times, room.at("late-copy.mp4"));
    for (const frame of [0, 1, 100]) {
      await makeStill(room.at("late-copy.mp4"), times, frame, room.at("late.jpg"));
      expect(room.readIndex(room.at("late.jpg"))).toBe(frame);
    }
  });
});

describe("the crack of the bat", () => {
  test("is heard within two milliseconds", async () => {
    const heard = await hearContact(room.crack("crack.mp4", { at: 1.0 }));
    expect(Math.abs((heard?.contact.seconds ?? 0) - 1)).toBeLessThan(0.002);
    expect(heard?.before).toEqual([]);
  });

  test("a clip without sound and a quiet one suggest nothing", async () => {
    expect(await hearContact(room.plain("mute.mp4"))).toBeNull();
    const quiet = room.make("quiet.mp4", ...room.lavfi("testsrc=size=64x64:rate=30"), ...room.lavfi("anoisesrc=amplitude=0.001"), "-t", "1", ...room.h264, "-c:a", "aac");
    expect(await hearContact(quiet)).toBeNull();
  });
});
