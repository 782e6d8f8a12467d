import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

/**
 * Fails by what axe-core finds on the screen in either theme: WCAG 2.2 AA and the best practices it knows beside it. Only of
 * what is in `within`, where a selector is given.
 */
export async function expectNoViolation(page: Page, screen: string, within = ':root'): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    const { violations } = await new AxeBuilder({ page }).include(within).analyze();
    const told = violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`,
    );
    expect(told, `${screen}, ${colorScheme}`).toEqual([]);
  }
}
