/** Raised whenever the same input could give another result. Stored with every ranking. */
export const ENGINE_VERSION = "2.2.0";
