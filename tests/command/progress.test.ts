import { describe, expect, it } from 'vitest';
import { openProgress } from '../../main/command/progress.ts';

function watched(isTTY: boolean) {
  const said: string[] = [];
  let seconds = 0;
  const to = { isTTY, write: (text: string) => void said.push(text) };
  const progress = openProgress(1_000_000, to, () => 1000 * seconds);
  const at = (moment: number, made: number): void => {
    seconds = moment;
    progress.made(made);
  };
  return { said, at, end: progress.end };
}

describe('the progress of long work', () => {
  it('says at most once a second how much is made, how fast, and how long it will still take', () => {
    const { said, at } = watched(true);
    at(0.5, 900);
    at(1, 2000);
    at(1.9, 4000);
    at(4, 8000);
    expect(said).toEqual([
      expect.stringContaining('2,000 of 1,000,000 jobs, 2000 a second, 9 min to go'),
      expect.stringContaining('8,000 of 1,000,000 jobs, 2000 a second, 9 min to go'),
    ]);
  });

  it('counts the last minute in seconds, and takes its line away at the end', () => {
    const { said, at, end } = watched(true);
    at(100, 900_000);
    expect(said.at(-1)).toContain('12 s to go');
    end();
    expect(said.at(-1)).toBe('\r\x1b[K');
  });

  it('writes nothing where it is no terminal, nor where the work is done within a second', () => {
    const file = watched(false);
    file.at(60, 10);
    file.end();
    expect(file.said).toEqual([]);
    const short = watched(true);
    short.at(0.2, 1_000_000);
    short.end();
    expect(short.said).toEqual([]);
  });
});
