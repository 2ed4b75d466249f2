import { createServer, type IncomingMessage } from "node:http";
import { Readable } from "node:stream";
import { findActor } from "@/lib/access/session";
import { sendUploadBytes } from "@/lib/domains/clips/routes";

/**
 * The route that takes bytes, alone on a port of its own, for tests that kill it: `tsx tests/support/upload-server.ts`. Who sends is told by the
 * session in a header, as the signed cookie would. Prints its port.
 */
const server = createServer(async (incoming, outgoing) => {
  const session = String(incoming.headers["x-session"] ?? "");
  const url = `http://cage.test${incoming.url ?? "/"}`;
  const named = new URL(url).pathname.split("/").slice(3);
  try {
    const answer = await sendUploadBytes.as(await findActor(session), new Request(url, { method: incoming.method, headers: headersOf(incoming), body: bodyOf(incoming), duplex: "half" } as RequestInit), named.length > 0 ? { tus: named } : {});
    outgoing.writeHead(answer.status, Object.fromEntries(answer.headers));
    outgoing.end(Buffer.from(await answer.arrayBuffer()));
  } catch {
    // The sender went away in the middle; what arrived is on the disk.
    outgoing.destroy();
  }
});

function headersOf({ headers }: IncomingMessage): [string, string][] {
  return Object.entries(headers).flatMap(([name, value]) => (typeof value === "string" && name !== "x-session" ? [[name, value] as [string, string]] : []));
}

function bodyOf(incoming: IncomingMessage): BodyInit | undefined {
  return incoming.method === "PATCH" ? (Readable.toWeb(incoming) as unknown as BodyInit) : undefined;
}

server.listen(0, "127.0.0.1", () => {
  const address = server.address();
  console.log(`port ${typeof address === "object" ? address?.port : ""}`);
});
