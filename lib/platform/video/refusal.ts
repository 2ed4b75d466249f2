import { DomainError } from "@/lib/core/errors";

/** What a file may be at most. Looked at before anything is decoded. */
export const VIDEO_LIMITS = { seconds: 600, pixels: 4096 * 4096, streams: 16, frames: 150_000, framesASecond: 1200 } as const;

/** Ways of packing pictures that are opened here. */
export const VIDEO_CODECS: readonly string[] = ["h264", "hevc", "vp8", "vp9", "av1", "mpeg4"];

/** Why a file is no video that can be kept, each with its sentence. */
const SENTENCES = {
  empty: "The file is empty: it holds no bytes.",
  text: "This is a text file and not a video, whatever its name says.",
  photo: "This is a photo and not a video. Please choose the film itself.",
  "not-a-video": "This is not a video that can be opened here. An MP4, MOV or WebM file is needed.",
  cut: "The file ends too soon: a part of the video is missing. Please send it again from where it is whole.",
  "no-picture": "The file has no picture. There is only sound in it, or nothing at all.",
  "no-frames": "The video has no frames.",
  "too-long": "The video is longer than ten minutes. Please cut out the swing and send that.",
  "too-large-picture": "The picture is larger than 4096 by 4096. Please save it smaller and send that.",
  "too-many-streams": "The file holds more tracks than a filmed swing can have.",
  "too-many-frames": "The video claims more frames in a second than any phone films, so its times cannot be trusted.",
  codec: "The video is packed in a way that cannot be opened here. Please save it as H.264 or HEVC.",
  "times-unusable": "The video does not say when each frame was filmed, so it could not be measured.",
  "frames-lost": "Some frames of the video cannot be opened. Please send it again from where it is whole.",
  "too-slow": "The video took too long to open. Please cut out the swing and send that.",
} as const;

export type VideoRefusalReason = keyof typeof SENTENCES;

/** The file is refused, for good: trying again with the same bytes ends the same way. */
export class VideoRefused extends DomainError {
  override readonly id = "video-refused";
  override readonly status = 422;
  constructor(readonly reason: VideoRefusalReason) {
    super(SENTENCES[reason]);
  }
}
