import { createRequire } from 'node:module';

/** A general-purpose SCXML interpreter at work on one document. */
export interface Interpreter {
  start(): void;
  gen(name: string): void;
  getConfiguration(): readonly string[];
  getFullConfiguration(): readonly string[];
}

interface Scion {
  readonly core: { readonly Statechart: new (model: unknown) => Interpreter };
  documentStringToModel(
    url: string,
    document: string,
    done: (
      error: Error | null,
      model: { prepare(done: (error: Error | null, model: unknown) => void): void },
    ) => void,
  ): void;
}

const scion = createRequire(import.meta.url)('@scion-scxml/scxml') as Scion;
const { Statechart } = createRequire(import.meta.url)('@scion-scxml/core') as Scion['core'];

/** Gives interpreters of a document, each at its start. */
export async function interpretersOf(document: string): Promise<() => Interpreter> {
  const model = await new Promise((resolve, reject) => {
    scion.documentStringToModel('chart.scxml', document, (error, loaded) => {
      if (error) reject(error);
      else loaded.prepare((problem, prepared) => (problem ? reject(problem) : resolve(prepared)));
    });
  });
  return () => {
    const interpreter = new Statechart(model);
    interpreter.start();
    return interpreter;
  };
}
