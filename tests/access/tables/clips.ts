import { newId } from "@/lib/core/ids";
import { database } from "@/lib/platform/database";
import { buildClip, facts } from "../../domains/clip-story";
import type { Cast, Column } from "../cast";
import type { AccessRow } from "../row";

const COACHES: readonly Column[] = ["head", "coach"];
const FAMILY: readonly Column[] = ["player", "guardian"];
const WATCHERS: readonly Column[] = [...COACHES, ...FAMILY];

const clip = async ({ academyId, playerId, userIds }: Cast) => buildClip({ academyId, playerId, userId: userIds.coach });
const clipInput = async (cast: Cast) => ({ clipId: (await clip(cast)).clipId });
const swingInput = async (cast: Cast) => ({ swingId: (await clip(cast)).swingId });
const playerInput = (cast: Cast) => ({ playerId: cast.playerId });

/** An upload that Pia's coach began. */
const uploadInput = async ({ academyId, playerId, userIds }: Cast) => {
  const { id: uploadId } = await database().upload.create({
    data: { id: newId(), academyId, playerId, userId: userIds.coach, facts, byteLength: 10n, state: "receiving" },
  });
  return { uploadId };
};

/** One that is being looked at and has its picture. */
const arrivingInput = async (cast: Cast) => {
  const { uploadId } = await uploadInput(cast);
  await database().upload.update({ where: { id: uploadId }, data: { state: "checking", hasPoster: true } });
  return { uploadId };
};

const markInput = async (cast: Cast) => {
  const { clipId } = await clip(cast);
  const { id: markId } = await database().mark.create({
    data: { id: newId(), academyId: cast.academyId, clipId, frameIndex: 0, shape: { v: 1, kind: "line", x1: 0, y1: 0, x2: 1, y2: 1 }, createdById: cast.userIds.coach },
  });
  return { markId };
};

/** A clip that Pia's guardian sent. */
const sent = async (cast: Cast) => {
  const { clipId, swingId } = await clip(cast);
  const { academyId, playerId, userIds } = cast;
  const { id: uploadId } = await database().upload.create({ data: { id: newId(), academyId, playerId, userId: userIds.guardian, facts, byteLength: 10n, state: "ready", clipId } });
  const { id: sentId } = await database().sentClip.create({ data: { id: newId(), academyId, playerId, uploadId, sentById: userIds.guardian, words: "" } });
  return { clipId, swingId, sentId };
};

const point = { frameIndex: 3, point: "hip_f" };
const camera = { view: "side", isMirrored: false, filmedRate: "as-file", hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: null };
const withClip = (more: object) => async (cast: Cast) => ({ ...(await clipInput(cast)), ...more });

export const rows: readonly AccessRow[] = [
  { name: "clips.get-swing", may: COACHES, input: swingInput },
  { name: "clips.list-swings", may: COACHES, input: playerInput },
  { name: "clips.list-uploads", may: COACHES, input: playerInput },
  { name: "clips.list-swings-to-join", may: COACHES, input: playerInput },
  { name: "clips.find-last-facts", may: COACHES, input: playerInput },

  { name: "clips.begin-upload", may: COACHES, input: (cast) => ({ ...playerInput(cast), ...facts, byteLength: 10 }) },
  { name: "clips.send-upload-bytes", may: ["coach"], input: uploadInput },
  { name: "clips.cancel-upload", may: COACHES, input: uploadInput },
  { name: "clips.dismiss-upload", may: COACHES, input: uploadInput },
  { name: "clips.retry-upload", may: COACHES, input: uploadInput },
  { name: "clips.erase-clip", may: COACHES, input: clipInput },

  { name: "clips.begin-sent", may: FAMILY, input: (cast) => ({ ...playerInput(cast), side: "right", view: "side", task: "tee", filmedRate: "as-file", byteLength: 10 }) },
  { name: "clips.get-sending", may: FAMILY, input: playerInput },
  { name: "clips.find-fresh-answer", may: FAMILY, input: playerInput },
  { name: "clips.get-sent", may: FAMILY, input: async (cast) => ({ sentId: (await sent(cast)).sentId }) },
  { name: "clips.list-waiting", may: ["head", "coach", "otherCoach", "formerCoach", "headElsewhere", "coachElsewhere"], input: () => ({}) },
  { name: "clips.find-sent-of", may: COACHES, input: async (cast) => ({ swingId: (await sent(cast)).swingId }) },
  {
    name: "clips.answer-sent", may: COACHES,
    input: async (cast) => {
      const { sentId, clipId } = await sent(cast);
      return { sentId, clipId, frameIndex: 3, words: "Look at the belt." };
    },
  },

  { name: "clips.set-event", may: COACHES, input: withClip({ event: "contact", frameIndex: 3 }) },
  { name: "clips.clear-event", may: COACHES, input: withClip({ event: "contact" }) },
  { name: "clips.place-point", may: COACHES, input: withClip({ ...point, x: 1, y: 1 }) },
  { name: "clips.mark-point-unseen", may: COACHES, input: withClip(point) },
  { name: "clips.remove-point", may: COACHES, input: withClip(point) },
  { name: "clips.swap-points", may: COACHES, input: withClip({ frameIndex: 3, pairs: ["hip"] }) },
  { name: "clips.place-points", may: COACHES, input: withClip({ frameIndex: 3, points: [{ point: "hip_f", place: { x: 1, y: 1 } }] }) },
  { name: "clips.place-followed", may: COACHES, input: withClip({ places: [{ frameIndex: 3, point: "tip", place: { x: 1, y: 1, followedSdPx: 1 } }] }) },
  { name: "clips.look-again", may: COACHES, input: clipInput },
  { name: "clips.get-suggesting", may: COACHES, input: clipInput },
  { name: "clips.get-suggestion-errors", may: ["head", "headElsewhere"], input: () => ({}) },
  { name: "clips.add-mark", may: COACHES, input: withClip({ frameIndex: 3, shape: { v: 1, kind: "words", x: 1, y: 1, text: "here" } }) },
  { name: "clips.remove-mark", may: COACHES, input: markInput },
  { name: "clips.set-clip-facts", may: COACHES, input: withClip(camera) },
  { name: "clips.set-camera-line", may: COACHES, input: withClip({ source: "stated", offDeg: 8 }) },
  { name: "clips.set-clip-time", may: COACHES, input: withClip({ realSecondsPerFileSecond: 1 / 8 }) },

  { name: "clips.stream-stepping-copy", may: WATCHERS, input: clipInput },
  { name: "clips.show-arriving-poster", may: COACHES, input: arrivingInput },
  { name: "clips.show-poster", may: WATCHERS, input: clipInput },
  { name: "clips.show-still", may: WATCHERS, input: withClip({ frameIndex: 0 }) },
  { name: "clips.show-cut", may: WATCHERS, input: withClip({ window: "0-0-370-490", frameIndex: 0 }) },
];
