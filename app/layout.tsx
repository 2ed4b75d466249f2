import type { Metadata, Viewport } from "next";
import { connection } from "next/server";
import type { ReactNode } from "react";
import { currentLanguage } from "@/lib/access/current-say";
import { browserMessages } from "@/lib/core/words/catalogue";
import { Speaking } from "@/lib/ui/words/use-say";
import "@/lib/ui/look/index.css";

export const metadata: Metadata = {
  title: { default: "Cagebook", template: "%s – Cagebook" },
  description: "The hitting academy's shared record: from a filmed swing to one thing to work on.",
  icons: { icon: "/icon.svg" },
  manifest: "/manifest.webmanifest",
  robots: { index: false, follow: false },
};

export const viewport: Viewport = {
  width: "device-width",
  initialScale: 1,
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#eef0e2" },
    { media: "(prefers-color-scheme: dark)", color: "#151914" },
  ],
};

export default async function RootLayout({ children }: { children: ReactNode }) {
  // Every page is made for one person and carries a nonce of its own, so none is made beforehand.
  await connection();
  const language = await currentLanguage();
  return (
    <html lang={language}>
      <body>
        <Speaking language={language} messages={browserMessages(language)}>
          {children}
        </Speaking>
      </body>
    </html>
  );
}
