import asc from "assemblyscript/asc";

const SOURCE = "pairs.assembly.ts";

/** Compiles the kernel. @returns its WebAssembly code. @throws Error with what the compiler said */
export async function compileKernel(source: string): Promise<Uint8Array> {
  let code: Uint8Array | null = null;
  const { error, stderr } = await asc.main([SOURCE, "--outFile", "pairs.wasm", "--optimizeLevel", "3", "--shrinkLevel", "0", "--runtime", "stub", "--enable", "simd", "--importMemory"], {
    readFile: (name) => (name === SOURCE ? source : null),
    writeFile: (name, contents) => {
      if (name === "pairs.wasm" && typeof contents !== "string") code = contents;
    },
    listFiles: () => [],
  });
  if (error || !code) throw new Error(`the kernel does not compile: ${stderr.toString()}`, { cause: error });
  return code;
}
