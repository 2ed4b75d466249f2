// The import table of the house. A part may import what stands beside it here and nothing else of ours.
const DOMAINS = ["identity", "roster", "library", "clips", "measurement", "breakdown", "observations", "plans", "walkthroughs", "practice", "progress", "messages", "admin"];
const PURE = "(schema|rules|policy|scope|view|events)";
// Inside a domain a subject may have a folder of its own, with the same file names.
const IN_DOMAIN = "^lib/domains/(?:[^/]+|[^/]+/[^/]+)/";
const domainFile = (layer) => `${IN_DOMAIN}${layer}\\.tsx?$`;
const ours = "^(app|lib|seed|tests)/";

/** A room and all it may import of ours. */
const only = (name, from, allowed) => ({
  name,
  severity: "error",
  from: { path: from, pathNot: "\\.test\\.tsx?$" },
  to: { path: ours, pathNot: allowed },
});

module.exports = {
  forbidden: [
    { name: "no-cycles", severity: "error", from: {}, to: { circular: true, viaOnly: { pathNot: "platform/generated" } } },
    { name: "the-pose-model-stays-in-the-worker", severity: "error", from: { path: "^app/|^proxy\\.ts$" }, to: { path: "^lib/platform/pose/|@litertjs|@mediapipe", reachable: true } },
    { name: "nothing-unresolved", severity: "error", from: {}, to: { couldNotResolve: true } },
    { name: "nothing-imports-seed-or-tests", severity: "error", from: { pathNot: "^(seed|tests)/|\\.test\\.tsx?$" }, to: { path: "^(seed|tests)/" } },
    only("core-imports-nothing", "^lib/core/", "^lib/core/"),
    only("measure-imports-core", "^lib/measure/", "^lib/(core|measure)/"),
    only("reason-imports-core-and-measure", "^lib/reason/", "^lib/(core|measure|reason)/"),
    only("prescribe-imports-core-measure-reason", "^lib/prescribe/", "^lib/(core|measure|reason|prescribe)/"),
    only("platform-imports-core", "^lib/platform/", "^lib/(core|platform)/"),
    only("access-imports-core-and-platform", "^lib/access/", "^lib/(core|platform|access)/"),
    only("ui-imports-core", "^lib/ui/", "^lib/(core|ui)/"),
    only("worker-imports-jobs-and-platform", "^lib/worker/", `^lib/(core|platform|worker)/|^lib/access/define-job|${IN_DOMAIN}(jobs|events)\\.ts$`),
    only("start-imports-platform", "^lib/start/", "^lib/(core|platform|start)/"),
    only("app-is-thin", "^app/", `^app/|^lib/(core|access|ui)/|${IN_DOMAIN}(queries|actions|routes|view)\\.ts$|^lib/domains/[^/]+/components/`),
    only("pure-files-import-pure-code", domainFile("(schema|policy|scope|view|events)"), `^lib/core/|^lib/(access/(ability|actor)|platform/database)\\.ts$|^lib/(measure|reason|prescribe)/|${IN_DOMAIN}${PURE}\\.ts$`),
    only("rules-import-pure-code", domainFile("rules"), `^lib/(core|measure|reason|prescribe)/|${IN_DOMAIN}${PURE}\\.ts$`),
    only("queries", domainFile("queries"), `^lib/(core|access|platform|measure|reason|prescribe)/|${IN_DOMAIN}(${PURE.slice(1, -1)}|queries)\\.ts$`),
    only("commands", domainFile("commands"), `^lib/(core|access|platform|measure|reason|prescribe)/|${IN_DOMAIN}(${PURE.slice(1, -1)}|queries|commands)\\.ts$`),
    only("actions", domainFile("actions"), `^lib/(core|access|platform|measure|reason|prescribe)/|${IN_DOMAIN}(${PURE.slice(1, -1)}|queries|commands)\\.ts$`),
    only("routes", domainFile("routes"), `^lib/(core|access|platform)/|${IN_DOMAIN}(${PURE.slice(1, -1)}|queries|commands)\\.ts$`),
    only("jobs", domainFile("jobs"), `^lib/(core|access|platform|measure|reason|prescribe)/|${IN_DOMAIN}(${PURE.slice(1, -1)}|queries|commands)\\.ts$`),
    only("components-show", "^lib/domains/[^/]+/components/", `^lib/(core|measure|reason|prescribe|ui)/|${IN_DOMAIN}(schema|view|rules|actions)\\.ts$|^lib/domains/[^/]+/components/`),
    // A later domain may import an earlier one, never the other way; and nobody another's commands, jobs or routes.
    ...DOMAINS.flatMap((domain, i) => {
      const later = DOMAINS.slice(i + 1).join("|");
      return [
        ...(later ? [{ name: `${domain}-is-upstream`, severity: "error", from: { path: `^lib/domains/${domain}/`, pathNot: "\\.test\\.tsx?$" }, to: { path: `^lib/domains/(${later})/` } }] : []),
        {
          name: `${domain}-keeps-to-its-own-commands`,
          severity: "error",
          from: { path: `^lib/domains/${domain}/`, pathNot: "\\.test\\.tsx?$" },
          to: { path: `${IN_DOMAIN}(commands|actions|jobs|routes)\\.ts$`, pathNot: `^lib/domains/${domain}/` },
        },
      ];
    }),
    { name: "domains-are-known", severity: "error", from: { path: "^(app|lib)/" }, to: { path: "^lib/domains/", pathNot: `^lib/domains/(${DOMAINS.join("|")})/` } },
  ],
  options: {
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules|lib/platform/generated" },
    exclude: { path: "\\.next|\\.data|\\.css$" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "require", "node", "default", "types"], extensions: [".ts", ".tsx", ".mjs", ".js", ".json", ".d.ts"] },
  },
};
