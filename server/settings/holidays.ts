import Holidays from 'date-holidays'

export interface Holiday {
  /** Calendar date. */
  readonly on: string
  readonly name: string
}

const REGION = /^([A-Z]{2})(?:-([A-Z0-9]{1,3}))?$/
const known = new Map<string, readonly Holiday[]>()

/** Whether public holidays are known for a country and, where one is named, its state or region: US, US-NY. */
export function isHolidayRegion(region: string): boolean {
  const [, country, state] = REGION.exec(region) ?? []
  if (country === undefined) return false
  const all = new Holidays()
  return country in all.getCountries('en') && (state === undefined || state in (all.getStates(country, 'en') ?? {}))
}

/**
 * The public holidays of a region in a year, days taken in their stead included; none where no region is named.
 * Source: the rules of the date-holidays library; local law and the shop’s own closings go first.
 */
export function listHolidays(region: string, year: number): readonly Holiday[] {
  const [, country, state] = REGION.exec(region) ?? []
  if (country === undefined) return []
  const key = `${region} ${year}`
  const found = known.get(key) ?? (state === undefined ? new Holidays(country) : new Holidays(country, state)).getHolidays(year)
    .filter(({ type }) => type === 'public').map(({ date, name }) => ({ on: date.slice(0, 10), name }))
  known.set(key, found)
  return found
}
