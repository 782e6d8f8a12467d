import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openShop, recordsOf, type TempShop } from '../support/temp-shop.ts';

async function rateIn({ client }: TempShop): Promise<number | null | undefined> {
  const shop = await client.shop.open();
  return shop.state === 'ready' ? shop.hourlyRate : undefined;
}

function rowsIn({ file }: TempShop): readonly unknown[] {
  const db = new Sqlite(file, { readonly: true });
  const rows = db.prepare("SELECT value FROM setting WHERE name = 'hourly-rate' ORDER BY at, id");
  const values = rows.pluck().all();
  db.close();
  return values;
}

describe('the shop’s hourly rate', () => {
  it('is none until it is set', async () => {
    expect(await rateIn(await openShop())).toBeNull();
  });

  it('is kept when the records are opened again, also where it was set to none again', async () => {
    const shop = await openShop();
    expect(await shop.client.shop.setHourlyRate({ rate: 45.5 })).toEqual({ rate: 45.5 });
    await shop.services.close();
    const again = await openShop({ file: shop.file });
    expect(await rateIn(again)).toBe(45.5);
    expect(await again.client.shop.setHourlyRate({ rate: null })).toEqual({ rate: null });
    await again.services.close();
    expect(await rateIn(await openShop({ file: shop.file }))).toBeNull();
  });

  it('keeps every rate that was set before, in order', async () => {
    const shop = await openShop();
    for (const rate of [45, 52.25, null]) await shop.client.shop.setHourlyRate({ rate });
    expect(rowsIn(shop)).toEqual(['45', '52.25', 'null']);
  });

  it.each([0, -45, 0.009, 5e-324, 1_000_000.01, Infinity, NaN, '45', true, undefined, [45], 2n ** 70n])(
    'does not take %s, says what a rate is, and records nothing',
    async (rate) => {
      const shop = await openShop();
      await shop.client.shop.setHourlyRate({ rate: 45 });
      const refused = shop.client.shop.setHourlyRate({ rate: rate as number });
      await expect(refused).rejects.toMatchObject({
        code: 'BAD_REQUEST',
        data: { issues: [{ path: ['rate'], message: expect.stringMatching(/^An hourly rate is /) }] },
      });
      expect(rowsIn(shop)).toEqual(['45']);
      expect(await rateIn(shop)).toBe(45);
    },
  );

  it.each([0.01, 1_000_000])('takes %d, the least and the most', async (rate) => {
    const shop = await openShop();
    await shop.client.shop.setHourlyRate({ rate });
    expect(await rateIn(shop)).toBe(rate);
  });

  it('is refused by the records too', async () => {
    const { settings } = recordsOf(await openShop());
    expect(() => settings.set('hourly-rate', 0)).toThrow('An hourly rate is at least 0.01.');
    expect(settings.value('hourly-rate')).toBeNull();
  });
});
