import { z } from "zod";
import { idForm } from "@/lib/domains/roster/schema";
import type { CropWindow } from "./view";

/** A window by its name, "x-y-width-height" in pixels of the upright picture. */
export const windowForm = z.string().regex(/^\d{1,5}-\d{1,5}-[1-9]\d{0,4}-[1-9]\d{0,4}$/);
export const cutForm = z.object({ clipId: idForm, window: windowForm, frameIndex: z.coerce.number().int().nonnegative() });

/** The name of a window: the same for the same place and size. */
export function windowName({ x, y, width, height }: CropWindow): string {
  return `${x}-${y}-${width}-${height}`;
}

/** The address of a cut still. It names clip, window and frame, so that other bytes have another address. */
export function cutAddress(clipId: string, window: CropWindow, frameIndex: number): string {
  return `/api/media/clips/${clipId}/cuts/${windowName(window)}/${frameIndex}`;
}
