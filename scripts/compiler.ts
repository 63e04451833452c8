import type TypeScript from 'typescript';

/** The type check, asked about one file with other contents at a time. */
export function compilerOf(ts: typeof TypeScript) {
  const config = ts.parseJsonConfigFileContent(ts.readConfigFile('tsconfig.json', ts.sys.readFile).config, ts.sys, '.');
  let mutant: { path: string; contents: string } | undefined;
  const versions = new Map<string, number>();
  const service = ts.createLanguageService({
    getCompilationSettings: () => config.options,
    getCurrentDirectory: () => process.cwd(),
    getDefaultLibFileName: ts.getDefaultLibFilePath,
    getScriptFileNames: () => config.fileNames,
    getScriptVersion: (path) => String(versions.get(path) ?? 0),
    getScriptSnapshot: (path) => {
      const contents = path === mutant?.path ? mutant.contents : ts.sys.readFile(path);
      return contents === undefined ? undefined : ts.ScriptSnapshot.fromString(contents);
    },
    fileExists: ts.sys.fileExists,
    readFile: ts.sys.readFile,
  });
  const touch = (path: string) => versions.set(path, (versions.get(path) ?? 0) + 1);
  return {
    /** Whether a file with these contents has errors of its own. */
    refuses(path: string, contents: string): boolean {
      mutant = { path, contents };
      touch(path);
      const count = service.getSemanticDiagnostics(path).length + service.getSyntacticDiagnostics(path).length;
      mutant = undefined;
      touch(path);
      return count > 0;
    },
  };
}
