// The one command that passes all tests.
import { installPackages, runTypeScript } from "./start.mjs";

installPackages();
runTypeScript("lib/start/tests.ts", process.argv.slice(2));
