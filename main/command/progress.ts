/** Where the progress is shown: `process.stderr`, or what stands in for it. */
export interface ProgressTo {
  readonly isTTY?: boolean;
  readonly write: (text: string) => unknown;
}

/** Says on one line of a terminal, at most once a second, how far a long piece of work has come; elsewhere nothing. */
export function openProgress(all: number, to: ProgressTo, now: () => number = () => performance.now()) {
  const began = now();
  let said = began;
  const shown = (made: number): string => {
    const seconds = (now() - began) / 1000;
    const left = Math.ceil(((all - made) * seconds) / made);
    const [count, of] = [made.toLocaleString('en'), all.toLocaleString('en')];
    return `${count} of ${of} jobs, ${String(Math.round(made / seconds))} a second, ${timeOf(left)} to go. Ctrl+C keeps whole days.`;
  };
  return {
    made(made: number): void {
      if (to.isTTY !== true || now() - said < 1000) return;
      said = now();
      to.write(`\r\x1b[K${shown(made)}`);
    },
    /** Takes the line away again. */
    end(): void {
      if (said !== began) to.write('\r\x1b[K');
    },
  };
}

function timeOf(seconds: number): string {
  return seconds < 60 ? `${String(seconds)} s` : `${String(Math.ceil(seconds / 60))} min`;
}
