// The one command. Plain JavaScript without packages, since it is what fetches them.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { spawn, spawnSync } from "node:child_process";
import path from "node:path";
import { fileURLToPath } from "node:url";

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
process.chdir(root);

const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 9)) {
  console.error(`Cagebook needs Node 20.9 or newer; this is ${process.versions.node}.`);
  process.exit(1);
}

/** Installs the packages when the lock file is another one than last time. */
export function installPackages() {
  const wanted = createHash("sha256").update(readFileSync("package-lock.json")).digest("hex");
  const stamp = path.join("node_modules", ".cagebook-lock");
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  console.log("Fetching packages (a minute or two, once) …");
  const done = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], { stdio: "inherit", shell: process.platform === "win32" });
  if (done.status !== 0) {
    console.error("The packages could not be fetched. Nothing was started; see the lines above, then run the command again.");
    process.exit(done.status ?? 1);
  }
  mkdirSync("node_modules", { recursive: true });
  writeFileSync(stamp, wanted);
}

/** Runs a TypeScript file of ours and ends as it ends. */
export function runTypeScript(file, args) {
  const child = spawn(process.execPath, ["--import", "tsx", file, ...args], { stdio: "inherit" });
  for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => child.kill(signal));
  child.on("exit", (code, signal) => process.exit(code ?? (signal ? 130 : 1)));
}

if (process.argv[1] && path.resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  installPackages();
  runTypeScript("lib/start/main.ts", process.argv.slice(2));
}
