import { createServer as createHttpServer } from "node:http";
import { createServer as createHttpsServer } from "node:https";
import next from "next";
import { settings } from "@/lib/platform/settings";
import { localCertificate } from "./certificate";

/** The web server: Next behind plain http, or behind https with a certificate of this machine (HTTPS=local). */
async function main(): Promise<void> {
  const { APP_URL, BEHIND_PROXY } = settings();
  const port = Number(process.env.PORT ?? (new URL(APP_URL).port || 3000));
  const app = next({ dev: process.env.NODE_ENV !== "production", dir: process.cwd(), port, hostname: "0.0.0.0" });
  await app.prepare();
  const handle = app.getRequestHandler();
  const listener = (request: Parameters<typeof handle>[0], response: Parameters<typeof handle>[1]) => {
    if (BEHIND_PROXY === "no") for (const name of Object.keys(request.headers)) if (name.startsWith("x-forwarded-")) delete request.headers[name];
    void handle(request, response);
  };
  const server = process.env.HTTPS === "local" ? createHttpsServer(await localCertificate(".data/https"), listener) : createHttpServer(listener);
  // A film on a slow line takes longer than the five minutes after which Node gives up on a request.
  server.requestTimeout = 0;
  server.listen(port, "0.0.0.0", () => process.send?.("ready"));
  const stop = () => server.close(() => process.exit(0));
  process.on("SIGTERM", stop);
  process.on("SIGINT", stop);
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
