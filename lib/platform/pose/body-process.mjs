// A process starts without the parent's TypeScript loader: register it, then run the real one.
import { register } from "tsx/esm/api";

register();
await import("./body-process.ts");
