import { answers } from "./answers";
import { inBrowser } from "./in-browser";
import { pages } from "./pages";
import { safety } from "./safety";

/** Spanish, whole: a text for every English one. */
export const es = { ...inBrowser, ...safety, ...pages, ...answers } as const;
