import pino from "pino";
import { settings } from "./settings";

let logger: pino.Logger | null = null;

/** The process's log: one JSON object a line. Identifiers only; never a name, a text or a file name. */
export function log(): pino.Logger {
  logger ??= pino({ level: settings().LOG_LEVEL, base: null, timestamp: pino.stdTimeFunctions.isoTime });
  return logger;
}
