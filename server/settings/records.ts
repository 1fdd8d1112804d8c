import { EARNING_RULES } from '../calc/costing/earnedValue.ts'
import { isCurrency } from '../calc/money.ts'
import { invalid } from '../shared/problems.ts'
import { checks, choice, clock, longText, money, quantity, reference, text, time, whole } from '../shared/records/field.ts'
import { defineKind, type Draft } from '../shared/records/kind.ts'
import { MANAGERS } from '../shared/roles.ts'
import { checkHours, WEEKDAY_WORDS, WEEKDAYS } from '../shared/weekdays.ts'
import { isHolidayRegion } from './holidays.ts'

const OWNER = ['owner'] as const

const SET = 'Left empty: '
const LIMITS = {
  restVoltageLeast: quantity('Final check: battery at rest, at least', 'voltage', { largest: 60_000, note: `${SET}12.4 V. Common practice, no source.` }),
  chargeVoltageLeast: quantity('Final check: battery while charged, at least', 'voltage', { largest: 60_000, note: `${SET}13.2 V. Common practice, no source.` }),
  chargeVoltageMost: quantity('Final check: battery while charged, at most', 'voltage', { largest: 60_000, note: `${SET}15 V. Common practice, no source.` }),
  loadVoltageLeast: quantity('Final check: battery under load, at least', 'voltage', { largest: 60_000, note: `${SET}12.8 V. Common practice, no source.` }),
  keyOffMost: quantity('Final check: key-off current, at most', 'current', { largest: 100_000, note: `${SET}50 mA. Common practice, no source: the vehicle maker’s own figure goes first.` }),
  voltageDropMost: quantity('Final check: voltage drop of a power line, at most', 'voltage', { largest: 10_000, note: `${SET}360 mV, which is 3 % of 12 V, as a public page quotes ABYC E-11 for main feeders of boats.` }),
  gainTolerance: quantity('Final check: gain off its target, at most', 'share', { largest: 500, note: `${SET}5 %. Common practice, no source.` }),
}

export const shop = defineKind({
  name: 'shop', plural: 'shop settings', path: 'shop', model: 'shop', place: 'settings', isOfBuild: false, isSingle: true,
  fields: {
    name: text('Shop name', { isRequired: true, note: 'As it stands on every sheet.' }),
    address: longText('Address'),
    phone: text('Phone'),
    currency: text('Currency', { isRequired: true, initial: 'USD', note: 'ISO 4217 code, as USD. Amounts already stored keep their numbers.' }),
    timeZone: text('Time zone', { isRequired: true, initial: 'UTC', note: 'As America/St_Johns: days begin and end by it.' }),
    units: choice('Units for new people', ['metric', 'inch'], { initial: 'metric', note: 'Each person may choose their own.' }),
    opensAt: clock('Opens', { initial: 28_800, isRequired: true, note: 'As 8:00. The schedule plans within these hours.' }),
    closesAt: clock('Closes', { initial: 61_200, isRequired: true }),
    workdays: checks('Working days', WEEKDAYS, { words: WEEKDAY_WORDS, isRequired: true }),
    pauseFrom: clock('Break from', { note: 'Nobody is planned for in it: 12:00 to 12:30. Left empty: none.' }),
    pauseTo: clock('Break until'),
    holidays: text('Closed on the public holidays of', { note: 'A country and, where it matters, its state or region by ISO 3166: US, US-NY, PT. Left empty: none; other days are entered as closings.', refuse: (region) => (isHolidayRegion(region) ? null : 'No public holidays are known for this. Write a country by ISO 3166, as US or PT, or with its region, as US-NY.') }),
    rollTime: time('To roll a vehicle in or out', { initial: 1800, largest: 86_400, note: 'Its bay is taken for so long, each time. 0.5 h: common practice, no source.' }),
    clipBreakShare: quantity('Clips that break', 'share', { largest: 1000, initial: 200, note: 'Common practice, no source: one in five.' }),
    consentAlarmShare: quantity('Warn at this share of the consent', 'share', { largest: 1000, initial: 900 }),
    allowedOverrun: quantity('Over what is agreed, without asking', 'share', { largest: 500, initial: 0, note: 'The forecast may pass what the customer accepted by this much. 0 % unless your local law and your terms say otherwise.' }),
    paymentDays: whole('Days to pay an invoice', 0, 365, { isRequired: true, initial: 14 }),
    goWrongTogether: quantity('Go wrong together', 'share', { largest: 1000, initial: 300, note: 'How far the operations of a build run over together. 30 % is our assumption, no source; what your own builds say stands under How our hours run.' }),
    earningRule: choice('Work counts as earned', EARNING_RULES, { initial: 'nothing until done', note: 'Nothing until an operation is done, or half of it once it is started. The cost when finished, by what is done, follows it.' }),
    ...LIMITS,
    laborTaxCodeId: reference('Quotes: tax code of labor', 'tax code', { note: 'What a new quote begins with. What is taxed how is for local law to say.' }),
    materialTaxCodeId: reference('Quotes: tax code of material', 'tax code', { note: 'Also of shop supplies, and of equipment that has none of its own.' }),
    suppliesShare: quantity('Quotes: shop supplies, of the price of labor', 'share', { largest: 1000, initial: 0, note: 'Some places limit or forbid such a charge: local law decides.' }),
    suppliesMost: money('Quotes: shop supplies, at most'),
    quoteValidDays: whole('Quotes: good for, in days', 1, 365, { initial: 30 }),
    quoteExclusions: longText('Quotes: not included', { note: 'What a new quote begins with.' }),
    quoteAssumptions: longText('Quotes: assumed'),
    restoreDepartmentId: reference('Department that returns to stock', 'department', { note: 'Its rates price a restoration.' }),
  },
  seenBy: MANAGERS, changedBy: OWNER,
  title: (row) => String(row.name || 'Your shop'),
  check: async (_write, draft) => checkShop(draft),
  firstStep: { why: 'Everything stands on it.', example: 'Name, currency, hours.' },
})

function checkShop({ values }: Draft): undefined {
  if (!isCurrency(String(values.currency))) throw invalid('currency', 'Currency is a three-letter ISO 4217 code, as USD or EUR.')
  try {
    new Intl.DateTimeFormat('en-US', { timeZone: String(values.timeZone) })
  } catch (error) {
    if (error instanceof RangeError) throw invalid('timeZone', 'Time zone is a name as Europe/Lisbon or America/St_Johns.')
    throw error
  }
  if (Number(values.closesAt) <= Number(values.opensAt)) throw invalid('closesAt', 'Closes is later than opens.')
  checkHours(values, { from: 'pauseFrom', to: 'pauseTo' })
  return undefined
}

export const department = defineKind({
  name: 'department', plural: 'departments', path: 'departments', model: 'department', place: 'settings', isOfBuild: false,
  fields: {
    name: text('Name', { isRequired: true }),
    costRate: money('Cost of an hour', { isRequired: true, isListed: true, note: 'What an hour costs the shop; no person’s wage is stored.' }),
    sellRate: money('Price of an hour', { isRequired: true, isListed: true }),
    reworkAllowance: quantity('Allowance for rework', 'share', { largest: 1_000, initial: 0, isListed: true, note: 'On top of the estimate of its operations, as 5 %. An operation may have its own.' }),
  },
  seenBy: MANAGERS, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  holds: async (reads, row) => {
    const skills = await reads.skill.count({ where: { departmentId: row.id, removedAt: null } })
    const operations = await reads.operation.count({ where: { departmentId: row.id, removedAt: null } })
    return skills + operations > 0 ? `${skills} skills and ${operations} operations belong to it. Move them first.` : null
  },
  firstStep: { why: 'Hours are estimated, costed and sold by department.', example: 'Wood room, 38.00 an hour, sold at 95.00.' },
})

export const skill = defineKind({
  name: 'skill', plural: 'skills', path: 'skills', model: 'skill', place: 'settings', isOfBuild: false,
  fields: {
    name: text('Name', { isRequired: true }),
    departmentId: reference('Department', 'department', { isRequired: true, isListed: true }),
  },
  seenBy: MANAGERS, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  firstStep: { why: 'An operation needs a skill, a person has some.', example: 'Laminating, in the laminating corner.' },
})

export const bay = defineKind({
  name: 'bay', plural: 'bays', path: 'bays', model: 'bay', place: 'settings', isOfBuild: false,
  fields: { name: text('Name', { isRequired: true, note: 'As it is called in the shop.' }) },
  seenBy: MANAGERS, changedBy: MANAGERS, title: (row) => String(row.name), orderBy: [{ name: 'asc' }],
  firstStep: { why: 'A vehicle stands in a bay while it is apart.', example: 'Bay 2, with the lift.' },
})

export const taxCode = defineKind({
  name: 'tax code', plural: 'tax codes', path: 'tax-codes', model: 'taxCode', place: 'settings', isOfBuild: false,
  fields: {
    code: text('Code', { isRequired: true }),
    name: text('Name', { isRequired: true, isListed: true }),
    rate: quantity('Rate', 'rate', { largest: 100_000, isRequired: true, isListed: true, note: 'As 7.25 %. What is taxed how is for local law to say.' }),
  },
  seenBy: MANAGERS, changedBy: MANAGERS, title: (row) => String(row.code), orderBy: [{ code: 'asc' }],
  firstStep: { why: 'Kept for quotes: equipment lines carry one, and no tax is computed yet.', example: 'GOODS, goods sold, 7.25 %.' },
})
