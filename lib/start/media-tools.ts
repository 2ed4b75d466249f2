import { spawnSync } from "node:child_process";
import { userInfo } from "node:os";

const has = (program: string, flag = "-version") => spawnSync(program, [flag], { stdio: "ignore" }).status === 0;

interface Wanted {
  readonly isThere: () => boolean;
  readonly debian: readonly string[];
  readonly brew: readonly string[];
  readonly what: string;
}

const FFMPEG: Wanted = { isThere: () => has("ffmpeg") && has("ffprobe"), debian: ["ffmpeg"], brew: ["ffmpeg"], what: "ffmpeg, which reads the films" };

/** Where a browser for the tests may stand. */
export const CHROMIUM_PATHS = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/Applications/Chromium.app/Contents/MacOS/Chromium", "/usr/bin/google-chrome"];

/**
 * Makes sure that ffmpeg and ffprobe can be called: found on the PATH, else installed by the system's own package
 * manager where that is allowed. @throws Error that names the one command to give
 */
export function ensureFfmpeg(): void {
  ensure(FFMPEG);
}

/** The same for the browser that the tests drive. @returns its path */
export function ensureChromium(given: string | undefined): string {
  const found = () => [given, ...CHROMIUM_PATHS].find((candidate) => candidate !== undefined && has(candidate, "--version"));
  ensure({ isThere: () => found() !== undefined, debian: ["chromium"], brew: ["--cask", "chromium"], what: "Chromium, which the tests drive" });
  const path = found();
  if (!path) throw new Error("Chromium was installed but is not where it should be. Set CHROMIUM_PATH to it.");
  return path;
}

function ensure(wanted: Wanted): void {
  if (wanted.isThere()) return;
  const isRoot = userInfo().uid === 0;
  const canSudo = !isRoot && spawnSync("sudo", ["-n", "true"], { stdio: "ignore" }).status === 0;
  const apt = ["apt-get", "install", "-y", "--no-install-recommends", ...wanted.debian];
  const brew = ["brew", "install", ...wanted.brew];
  const isDebian = has("apt-get", "--version");
  if (isDebian && (isRoot || canSudo)) {
    console.log(`Installing ${wanted.what} …`);
    const as = isRoot ? [] : ["sudo", "-n"];
    const call = (words: readonly string[]) => spawnSync(words[0] ?? "", words.slice(1), { stdio: ["ignore", "ignore", "inherit"], env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } });
    call([...as, "apt-get", "update", "-qq"]);
    call([...as, ...apt]);
  } else if (has("brew", "--version")) {
    console.log(`Installing ${wanted.what} …`);
    spawnSync("brew", brew.slice(1), { stdio: "inherit" });
  }
  if (wanted.isThere()) return;
  const command = isDebian ? `sudo ${apt.join(" ")}` : process.platform === "darwin" ? brew.join(" ") : `your system's package manager (${wanted.debian.join(" ")})`;
  throw new Error(`This needs ${wanted.what}. Please install it with\n\n    ${command}\n\nand run the command again.`);
}
