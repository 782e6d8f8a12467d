import { parentPort, workerData } from 'node:worker_threads';
import { openFactReader, type FactReader } from '../../records/index.ts';
import { answer, guarded } from '../answer.ts';
import { openReviews, type Reviews } from './open-reviews.ts';
import type { AnyReviewAnswer, ReviewQuestion } from './question.ts';
import type { ReviewThreadData } from './start-thread.ts';

// The thread that reviews are made in: questions come one by one, and null where it is to end.

const { file, stopped } = workerData as ReviewThreadData;
let open: { readonly reader: FactReader; readonly reviews: Reviews } | null = null;

parentPort?.on('message', (question: ReviewQuestion | null) => {
  const given = question === null || isStopped() ? null : answerTo(question);
  if (given !== null) return parentPort?.postMessage(given);
  if (question !== null) return;
  close();
  parentPort?.close();
});

function isStopped(): boolean {
  return Atomics.load(stopped, 0) !== 0;
}

/** Null where nobody waits for it any more. */
function answerTo(question: ReviewQuestion): AnyReviewAnswer | null {
  const given = guarded(file, () => answer(valueOf(question, reviewsOpen())));
  // What failed once, the file having gone perhaps, is opened anew for the next question.
  if (!given.ok) close();
  return isStopped() ? null : given;
}

function valueOf(question: ReviewQuestion, reviews: Reviews) {
  switch (question.kind) {
    case 'figures':
      return reviews.figures(question.filter, question.now);
    case 'jobs':
      return reviews.jobs(question.filter, question.now, question);
    case 'expect':
      return reviews.expect();
    case 'warm':
      reviews.warm();
      return null;
  }
}

function reviewsOpen(): Reviews {
  if (open === null) {
    const reader = openFactReader(file);
    open = { reader, reviews: openReviews(reader, isStopped) };
  }
  return open.reviews;
}

function close(): void {
  open?.reader.close();
  open = null;
}
