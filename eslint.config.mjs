import next from "eslint-config-next/core-web-vitals";
import typescript from "eslint-config-next/typescript";

const config = [
  { ignores: [".next/**", ".data/**", "node_modules/**", "lib/platform/generated/**", "**/*.assembly.ts", "next-env.d.ts", "test-results/**", "playwright-report/**"] },
  ...next,
  ...typescript,
  {
    files: ["**/*.{ts,tsx}"],
    rules: {
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/ban-ts-comment": "error",
      "@typescript-eslint/no-non-null-assertion": "error",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      "max-lines": ["error", { max: 400 }],
      "no-restricted-syntax": [
        "error",
        { selector: "ExportAllDeclaration", message: "No barrel files: import from the file that has it." },
        { selector: "MemberExpression[object.name='process'][property.name='env']", message: "Only lib/platform/settings.ts reads the environment." },
      ],
    },
  },
  { files: ["lib/platform/settings.ts", "lib/start/**", "tests/**", "*.config.ts", "proxy.ts"], rules: { "no-restricted-syntax": ["error", { selector: "ExportAllDeclaration", message: "No barrel files." }] } },
  { files: ["tests/**", "**/*.test.{ts,tsx}"], rules: { "@typescript-eslint/no-non-null-assertion": "off" } },
];

export default config;
