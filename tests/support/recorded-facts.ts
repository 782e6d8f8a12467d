import { openFactReader } from '../../main/records/fact-reader.ts';
import { factAt, type Facts, type JobFact } from '../../trees/review/index.ts';

/** The facts that are on record in a file, by job. */
export function recordedFacts(file: string): ReadonlyMap<string, JobFact> {
  const reader = openFactReader(file);
  try {
    return new Map(
      factsIn(reader.facts()).map((fact) => [reader.jobsAt([fact.place])[0]?.jobId ?? '', fact]),
    );
  } finally {
    reader.close();
  }
}

/** Every row as the fact it stands for. */
export function factsIn({ blocks, names, ways }: Facts): readonly JobFact[] {
  return blocks.flatMap((block) =>
    Array.from({ length: block.rows }, (_, row) => factAt(block, row, names, ways)),
  );
}
