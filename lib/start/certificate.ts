import { existsSync } from "node:fs";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { networkInterfaces } from "node:os";
import path from "node:path";
import { generate } from "selfsigned";

export interface Certificate {
  readonly key: string;
  readonly cert: string;
}

/** The addresses under which this machine is reached in its own network. */
export function localAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  return all.filter((address) => address.family === "IPv4" && !address.internal).map((address) => address.address);
}

/**
 * A certificate for this machine, made by itself and kept: a phone asks once whether to trust it, and then lets pages
 * use camera and microphone. Made anew when the machine has another address.
 */
export async function localCertificate(folder: string): Promise<Certificate> {
  const addresses = localAddresses();
  const file = path.join(folder, "certificate.json");
  if (existsSync(file)) {
    const kept = JSON.parse(await readFile(file, "utf8")) as Certificate & { addresses: string[]; until: string };
    if (kept.addresses.join() === addresses.join() && new Date(kept.until) > new Date(Date.now() + 7 * 86_400_000)) return kept;
  }
  const until = new Date(Date.now() + 365 * 86_400_000);
  const made = await generate([{ name: "commonName", value: "Cagebook on this machine" }], {
    keySize: 2048,
    algorithm: "sha256",
    notAfterDate: until,
    extensions: [
      { name: "basicConstraints", cA: true },
      {
        name: "subjectAltName",
        altNames: [{ type: 2, value: "localhost" }, { type: 7, ip: "127.0.0.1" }, ...addresses.map((ip) => ({ type: 7 as const, ip }))],
      },
    ],
  });
  await mkdir(folder, { recursive: true });
  await writeFile(file, JSON.stringify({ key: made.private, cert: made.cert, addresses, until: until.toISOString() }), { mode: 0o600 });
  return { key: made.private, cert: made.cert };
}
