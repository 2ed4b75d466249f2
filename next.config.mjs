/** @type {import("next").NextConfig} */
const config = {
  poweredByHeader: false,
  reactStrictMode: true,
  serverExternalPackages: ["@napi-rs/canvas", "@node-rs/argon2", "pg", "graphile-worker", "pino", "nodemailer", "rate-limiter-flexible"],
  // Next's own type check is repeated by `npm run typecheck`, which the tests run.
  typescript: { ignoreBuildErrors: true },
  // A page comes with its own title, not a moment after it: what reads titles aloud never meets a page without one.
  htmlLimitedBots: /.*/,
  // A request costs a phone on a slow line over half a second, the styles within the page a tenth: nothing is painted before they are there.
  experimental: { serverActions: { bodySizeLimit: "1mb" }, inlineCss: true },
  async headers() {
    return [
      {
        source: "/:path*",
        headers: [
          { key: "X-Content-Type-Options", value: "nosniff" },
          { key: "Referrer-Policy", value: "same-origin" },
          { key: "X-Frame-Options", value: "DENY" },
          { key: "Permissions-Policy", value: "geolocation=(), camera=(self), microphone=(self)" },
        ],
      },
    ];
  },
};

export default config;
