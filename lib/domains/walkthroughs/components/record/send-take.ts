import type { ActionState } from "@/lib/core/action-state";
import { keepTake } from "../../actions";
import { walkthroughAddress } from "../../schema";
import { dropFromDevice, readKeptVoice, type KeptTake } from "./kept-takes";

const notSent = "It could not be sent just now. It is kept on this device; please send it again.";

/** Sends a take with its voice and takes it off the device once all of it has arrived. @returns what went wrong, null when it is kept there */
export async function sendTake(take: KeptTake): Promise<string | null> {
  const { takeId, playerId, walkthroughId, side, chapterId, list } = take;
  const voice = await readKeptVoice(takeId);
  try {
    const kept: ActionState = await keepTake({ takeId, playerId, walkthroughId, side, chapterId, list, hasVoice: voice !== null });
    if (kept.status === "refused") return kept.message;
    if (voice) {
      const answer = await fetch(walkthroughAddress.voice(takeId), { method: "PUT", body: voice, headers: { "content-type": voice.type || "application/octet-stream" } });
      if (!answer.ok) return answer.status < 500 ? await answer.text() : notSent;
    }
  } catch {
    return notSent;
  }
  await dropFromDevice(takeId);
  return null;
}
