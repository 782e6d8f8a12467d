import { expect, it } from 'vitest';
import { Session } from '../../app/shell/session.svelte.ts';
import { SMALL_SUMMARY, standIn, TECHNICIAN } from './stand-in-client.ts';

async function openSession(): Promise<Session> {
  const { client } = standIn([SMALL_SUMMARY]);
  const session = new Session(() => Promise.resolve(client));
  await session.open();
  return session;
}

it('asks who is at work where it could be one of several', async () => {
  const session = await openSession();
  expect(session.technician).toBeNull();
  session.workAs(TECHNICIAN.id);
  expect(session.technician?.id).toBe(TECHNICIAN.id);
});

it('takes the shop’s only technician to be at work', async () => {
  const session = await openSession();
  if (session.shop?.state !== 'ready') throw new Error('the stand-in’s shop is open');
  session.shop = { ...session.shop, technicians: [TECHNICIAN] };
  expect(session.technician?.id).toBe(TECHNICIAN.id);
});

it('knows the shop’s hourly rate, and none where the shop is not open', async () => {
  const session = await openSession();
  expect(session.hourlyRate).toBeNull();
  if (session.shop?.state !== 'ready') throw new Error('the stand-in’s shop is open');
  session.shop = { ...session.shop, hourlyRate: 45 };
  expect(session.hourlyRate).toBe(45);
  session.shop = null;
  expect(session.hourlyRate).toBeNull();
});
