"use client";

import { createContext, useContext, useMemo, type ReactNode } from "react";
import type { Language } from "@/lib/core/words/languages";
import { english, sayFrom, type Messages, type Say, type Sentence } from "@/lib/core/words/say";

const Voice = createContext<Say>(english);

/** Gives the parts that run in the browser their language; English needs no messages. */
export function Speaking({ language, messages, children }: { language: Language; messages: Messages | null; children: ReactNode }) {
  const say = useMemo(() => (messages ? sayFrom(language, messages) : english), [language, messages]);
  return <Voice value={say}>{children}</Voice>;
}

/** The voice of the page, for parts that run in the browser. */
export function useSay(): Say {
  return useContext(Voice);
}

/** A sentence without gaps in the language of the page, for parts that are shown by both sides. */
export function Here({ text }: { text: Sentence }) {
  return useSay().told(text);
}
