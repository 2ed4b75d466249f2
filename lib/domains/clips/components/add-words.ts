import { defineWords } from "@/lib/ui/words/define-words";
import type { Option } from "@/lib/ui/select";

const option = (value: string, label: string): Option => ({ value, label });

/** The texts of adding clips and of how a clip was filmed. */
const en = {
  sent: "Sent",
  filmSide: "Film",
  choose: "Choose videos",
  chooseHint: "MP4 or MOV, ten minutes at most. A video with several swings is cut apart after it was sent.",
  film: "Film now",
  chosen: (count: number) => (count === 1 ? "One video" : `${count} videos`),
  send: (count: number) => (count === 1 ? "Send one clip" : `Send ${count} clips`),
  nothingChosen: "Choose a video first.",
  answersFor: "These answers hold for all videos chosen here.",
  more: "More about the swing",
  camera: "About the camera",
  clip: (number: number, megabytes: string) => `Clip ${number}, ${megabytes}`,
  facts: (seconds: string, fps: number) => `${seconds} s, ${fps} frames a second`,
  moreFacts: ({ isUneven, size, codec, hasSound }: { isUneven: boolean; size: string; codec: string; hasSound: boolean }) =>
    `${isUneven ? ", unevenly" : ""}; ${size}, ${codec}, ${hasSound ? "with" : "without"} sound`,
  notShown: "This browser cannot show it before it is sent. It can be sent all the same and stepped then.",
  unreadable: "The browser cannot open it; it is looked at after it was sent.",
  state: {
    unowned: "Waits for your answers",
    waiting: "Waits for its turn",
    reading: "Being read",
    lost: "No line. What has arrived is kept; it goes on by itself.",
    sent: "Arrived",
    known: "It was here already; nothing was sent again.",
    stopped: "Taken back; nothing of it was kept.",
  },
  sending: (percent: number) => `Sending, ${percent} of 100`,
  keptHere: "If this page is closed, it goes on when you are back here.",
  notKeptHere: "This browser cannot keep it: after a reload choose the same video again to go on.",
  stop: "Take back",
  checking: "Being looked at. You can leave; we carry on.",
  partly: "Not here whole. Choose the same video again to go on, or take it back.",
  ready: "A clip now",
  open: "Open the swing",
  notWhose: (name: string) => `Not ${name}?`,
  known: "The same video was here already. It was not added twice.",
  putAway: "Put away",
  tryAgain: "Try again",
  erase: "Erase this clip",
  whatErasing: "The film goes with its copies, pictures, points, marks and readings. When it is the swing’s only clip, the swing and its calls go too. A note that was sent keeps its words without the picture. This cannot be undone.",
  sureToErase: "Yes, erase it for good",
  eraseNow: "Erase the clip",
  refusedTitle: "This video did not become a clip",
  labels: {
    view: "From where", side: "Bats from", task: "What was hit", effort: "How hard", pitchHeight: "How high the ball", pitchSide: "Which side of the plate",
    pitchSpeed: "How fast the ball", batClass: "Which bat", swingKind: "Kind of swing", filmedOn: "Filmed on", filmedRate: "How was it filmed?",
    isMirrored: "The video is mirrored", hasCameraMoved: "The camera moved", hasCameraZoomed: "The camera zoomed",
    isStabilised: "The phone steadied the picture", cameraOffDeg: "Degrees off the ideal line",
  },
  hints: {
    filmedRate: "The file tells how fast it plays. Only you know whether that is slow motion.",
    cameraOffDeg: "Leave it empty when nobody measured it.",
    isMirrored: "Front cameras do that: letters on the shirt read backward.",
  },
  join: {
    label: "Which swing is it?",
    own: "A new swing",
    hint: "When a second camera filmed a swing that is here already, choose that swing: its events are then set once for both.",
    shared: "What was hit, how hard and when is known from that swing.",
    twice: (view: string) => `There is a ${view} clip of this swing already. This one is kept beside it as a second ${view} clip.`,
    one: "Choose one video: it joins the swing as one more camera.",
    swing: ({ day, side, task, views, hour }: { day: string; side: string; task: string; views: string; hour: string }) =>
      `${day}, from the ${side}, ${task}: ${views}; added at ${hour}`,
  },
  keepFacts: "Keep",
  howFilmed: "How it was filmed",
};
export const addWords = defineWords({ en });

/** The answers in the order of the closed lists. */
export const factOptions = {
  view: [option("side", "From the side, facing the chest"), option("rear", "From behind"), option("front", "From the front")],
  task: [
    option("tee", "Off a tee"), option("toss", "Tossed ball"), option("machine", "Machine"), option("live", "Pitched in practice"), option("game", "In a game"),
    option("dry", "Without a ball"),
  ],
  effort: [option("practice", "Practice speed"), option("game", "Full speed"), option("feel", "Half speed, for feel")],
  pitchHeight: [option("belt", "Belt high"), option("high", "High"), option("low", "Low"), option("unknown", "Not noted")],
  pitchSide: [option("middle", "Middle"), option("inside", "Inside"), option("away", "Away"), option("unknown", "Not noted")],
  pitchSpeed: [option("unknown", "Not noted"), option("slow", "Slower than the usual game pitch"), option("game", "About game speed"), option("fast", "Fast for this player")],
  batClass: [option("usual", "The usual game bat"), option("lighter", "Lighter"), option("heavier", "Heavier"), option("shorter", "Shorter, or choked up"), option("other", "Another bat, or not noted")],
  swingKind: [option("power", "Full swing"), option("two-strike", "Two-strike swing"), option("running-slap", "Running slap")],
  filmedRate: [
    option("as-file", "As the file plays: real speed"), option("240", "Slow motion, 240 frames a second"), option("120", "Slow motion, 120 frames a second"),
    option("unknown", "I do not know"),
  ],
} as const;
