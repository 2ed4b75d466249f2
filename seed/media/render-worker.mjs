// A thread starts without the parent's TypeScript loader: register it, then load the real worker.
import { register } from "tsx/esm/api";

register();
await import("./render-worker.ts");
