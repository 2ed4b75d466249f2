export interface StartOptions {
  readonly port: number;
  /** With a certificate of this machine, so that a phone in the same network may use camera and microphone. */
  readonly isHttps: boolean;
  readonly hasDemo: boolean;
  readonly isDevelopment: boolean;
}

export const USAGE = `npm start -- [--port 3000] [--https] [--no-demo] [--dev]

  --port N    the port of the web pages (3000)
  --https     with a certificate of this machine, for phones in the same network
  --no-demo   without the made-up academy; the first admin is made by: npm start -- --no-demo --admin mail@example.org
  --dev       with the development server, which rebuilds on every change`;

/** Reads the words after the command. @throws Error that names the word it does not know */
export function readOptions(words: readonly string[]): StartOptions & { readonly adminMail: string | null } {
  let port = 3000;
  let adminMail: string | null = null;
  const flags = new Set<string>();
  for (let i = 0; i < words.length; i++) {
    const word = words[i] ?? "";
    if (word === "--port") {
      port = Number(words[++i]);
      if (!Number.isInteger(port) || port < 1 || port > 65535) throw new Error(`--port takes a number from 1 to 65535.\n\n${USAGE}`);
    } else if (word === "--admin") {
      adminMail = words[++i] ?? null;
      if (!adminMail?.includes("@")) throw new Error(`--admin takes a mail address.\n\n${USAGE}`);
    } else if (["--https", "--no-demo", "--dev"].includes(word)) flags.add(word);
    else throw new Error(`There is no option ${word}.\n\n${USAGE}`);
  }
  return { port, adminMail, isHttps: flags.has("--https"), hasDemo: !flags.has("--no-demo"), isDevelopment: flags.has("--dev") };
}
