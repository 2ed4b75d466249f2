/** How it stands with the microphone. */
export type VoiceState = "none" | "asking" | "open" | "refused" | "missing" | "lost";

const KINDS = ["audio/webm;codecs=opus", "audio/ogg;codecs=opus", "audio/mp4"] as const;
const BITS_PER_SECOND = 32_000;
const PIECE_MS = 1000;

/** A microphone that is open, and what is recorded of it piece by piece. */
export class VoiceRecorder {
  private recorder: MediaRecorder | null = null;
  private readonly context: AudioContext | null;
  private readonly analyser: AnalyserNode | null;
  private readonly samples = new Float32Array(1024);

  private constructor(private readonly stream: MediaStream, onLost: () => void) {
    for (const track of stream.getAudioTracks()) track.addEventListener("ended", onLost);
    this.context = typeof AudioContext === "undefined" ? null : new AudioContext();
    this.analyser = this.context?.createAnalyser() ?? null;
    if (this.analyser) {
      this.analyser.fftSize = this.samples.length;
      this.context?.createMediaStreamSource(stream).connect(this.analyser);
    }
  }

  /** Asks for the microphone. @returns the recorder, or why there is none */
  static async open(onLost: () => void): Promise<VoiceRecorder | "refused" | "missing"> {
    if (typeof MediaRecorder === "undefined" || !navigator.mediaDevices?.getUserMedia) return "missing";
    try {
      return new VoiceRecorder(await navigator.mediaDevices.getUserMedia({ audio: { channelCount: 1, echoCancellation: true, noiseSuppression: true, autoGainControl: true } }), onLost);
    } catch (error) {
      return error instanceof DOMException && error.name === "NotAllowedError" ? "refused" : "missing";
    }
  }

  /**
   * Begins to record; pieces come about once a second. Resolves when the recorder says that it runs.
   * @returns what the steady clock said when it was told to: what it keeps begins there, and it says so only a while later
   */
  async start(onPiece: (piece: Blob) => void): Promise<number> {
    const mimeType = KINDS.find((it) => MediaRecorder.isTypeSupported(it));
    const recorder = new MediaRecorder(this.stream, { ...(mimeType ? { mimeType } : {}), audioBitsPerSecond: BITS_PER_SECOND });
    recorder.addEventListener("dataavailable", ({ data }) => data.size > 0 && onPiece(data));
    this.recorder = recorder;
    const running = new Promise<void>((resolve) => recorder.addEventListener("start", () => resolve(), { once: true }));
    const begunMs = performance.now();
    recorder.start(PIECE_MS);
    await running;
    return begunMs;
  }

  pause(): void {
    if (this.recorder?.state === "recording") this.recorder.pause();
  }

  resume(): void {
    if (this.recorder?.state === "paused") this.recorder.resume();
  }

  /** Ends the recording; the last piece has come when it resolves. */
  async stop(): Promise<void> {
    const { recorder } = this;
    if (!recorder || recorder.state === "inactive") return;
    const ended = new Promise<void>((resolve) => recorder.addEventListener("stop", () => resolve(), { once: true }));
    recorder.stop();
    await ended;
  }

  /** How loud it is now, 0 to 1: root mean square on a scale of 60 decibels. */
  level(): number {
    if (!this.analyser) return 0;
    this.analyser.getFloatTimeDomainData(this.samples);
    const power = this.samples.reduce((sum, it) => sum + it * it, 0) / this.samples.length;
    return Math.max(0, Math.min(1, (10 * Math.log10(power + 1e-12) + 60) / 60));
  }

  close(): void {
    for (const track of this.stream.getTracks()) track.stop();
    void this.context?.close();
  }
}
