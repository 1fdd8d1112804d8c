import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core'
import { existsSync } from 'node:fs'

const CHROMIUM = '/usr/bin/chromium'

/** Says why browser tests cannot run here; null where they can. */
export const browserMissing = (): string | null => (existsSync(CHROMIUM) ? null : 'Chromium is missing: install the package chromium')

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: CHROMIUM,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run'],
  })
}

export interface Screen {
  readonly width: number
  readonly height: number
  readonly theme?: 'light' | 'dark'
}

export const PHONE: Screen = { width: 390, height: 844 }
export const TABLET: Screen = { width: 820, height: 1180 }
export const DESK: Screen = { width: 1440, height: 900 }

/** A window of its own, with nobody signed in. Content policy is lifted only where a checker must be injected. */
export function openWindow(browser: Browser, { width, height, theme = 'light' }: Screen, lifted = false): Promise<BrowserContext> {
  return browser.newContext({
    viewport: { width, height }, colorScheme: theme, isMobile: width < 600, hasTouch: width < 600, bypassCSP: lifted, reducedMotion: 'reduce',
  })
}

/** Signs in through the page, as people do. */
export async function signInAs(page: Page, address: string, signInName: string, password: string): Promise<void> {
  await page.goto(`${address}/sign-in`)
  await page.getByLabel('Sign-in name').fill(signInName)
  await page.getByLabel('Password').fill(password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'))
}

/** What can be tapped in the page and is less than 44 px high. */
export const tooSmall = (page: Page): Promise<string[]> => page.evaluate(`[...document.querySelectorAll('main a, main button, main summary, main select, main input:not([type=hidden], [type=checkbox], [type=file])')]
  .filter((element) => element.checkVisibility() && element.closest('.entry') === null)
  .map((element) => [element, element.getBoundingClientRect().height]).filter(([, height]) => height > 0 && height < 44)
  .map(([element, height]) => element.tagName + ' ' + element.textContent.trim().slice(0, 30) + ' ' + Math.round(height))`)
