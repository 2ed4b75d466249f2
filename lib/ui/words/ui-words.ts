import { defineWords } from "./define-words";
import { en } from "./en";

/** The texts of the parts, in the language of this installation. */
export const uiWords = defineWords({ en });
