import { choice, longText, money, quantity, reference, text, whole } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import type { Row } from '../shared/database/delegate.ts'
import { MANAGERS } from '../shared/roles.ts'
import { checkDeposits, checkLine, checkOption, checkQuote, holdsLine, holdsOption } from './rules.ts'

export const LINES_BY = ['zone', 'part', 'lump sum'] as const
export type LinesBy = typeof LINES_BY[number]
export const REPLACED_PARTS = ['not asked yet', 'wanted back', 'not wanted'] as const

const LARGEST_PRICE = 1_000_000_000
const OF_QUOTE = { place: 'builds', isOfBuild: true, seenBy: MANAGERS, changedBy: MANAGERS } as const
const toQuote = (row: Row | null) => ({ href: row ? `/builds/${String(row.buildId)}/quote` : '/builds', name: row ? 'To the quote' : 'To the builds', roles: MANAGERS })

const orderOf = (row: Row): string => `/builds/${String(row.buildId)}/change-orders/${String(row.changeOrderId)}`

/** After saving one is back at the quote, which says what was saved. */
const backToQuote = ({ id, buildId }: Row): string => `/builds/${String(buildId)}/quote?saved=${id}`

export const quote = defineKind({
  ...OF_QUOTE, name: 'quote', plural: 'quotes', path: 'quotes', model: 'quote', isSingle: true, hasOwnPage: true,
  fields: {
    linesBy: choice('Lines by', LINES_BY, { isListed: true, initial: 'zone', note: 'What the customer reads: one line for each zone, for each part, or one for all. The sum is the same.' }),
    laborTaxCodeId: reference('Tax code of labor', 'tax code', { note: 'What is taxed how is for local law to say. Left empty, it bears no tax.' }),
    materialTaxCodeId: reference('Tax code of material', 'tax code', { note: 'Also of shop supplies, and of equipment that has none of its own.' }),
    suppliesShare: quantity('Shop supplies, of the price of labor', 'share', { largest: 1000, initial: 0, note: 'Of the labor that is in no option. Some places limit or forbid such a charge: local law decides.' }),
    suppliesMost: money('Shop supplies, at most'),
    validDays: whole('Good for, in days', 1, 365, { initial: 30, isRequired: true, note: 'From the day it is frozen, that last day included.' }),
    exclusions: longText('Not included'),
    assumptions: longText('Assumed'),
    replacedParts: choice('Replaced parts', REPLACED_PARTS, { isListed: true, initial: 'not asked yet', note: 'Whether the customer wants back what is replaced. Many places say that it must be offered; local law decides.' }),
    note: longText('A word to the customer'),
  },
  title: () => 'Quote', check: checkQuote, begin: toQuote,
  firstStep: { why: 'What the customer is asked to agree to.', example: 'By zone, good for 30 days, a third on signing.' },
})

export const quoteOption = defineKind({
  ...OF_QUOTE, name: 'quote option', plural: 'quote options', path: 'quote-options', model: 'quoteOption', number: { prefix: '', within: 'build' },
  fields: {
    name: text('Option', { isRequired: true, note: 'What the customer says yes or no to.' }),
    insteadOf: text('One of', { isListed: true, note: 'Options with the same word here exclude each other, as “cover”. Left empty, it is yes or no by itself.' }),
    note: text('What the customer gets', { isListed: true }),
  },
  title: (row) => String(row.name), orderBy: [{ number: 'asc' }], check: checkOption, holds: holdsOption, begin: toQuote, backTo: backToQuote,
  firstStep: { why: 'What the customer may say yes or no to, with its own price.', example: 'Drawer fronts in walnut; fabric or leather.' },
})

export const quoteLine = defineKind({
  ...OF_QUOTE, name: 'quote line', plural: 'quote lines', path: 'quote-lines', model: 'quoteLine', number: { prefix: '', within: 'build' },
  fields: {
    text: text('What', { isRequired: true, note: 'As the customer reads it.' }),
    quantity: quantity('Quantity', 'times', { least: 1, largest: 1_000_000_000, initial: 1000, isRequired: true, isListed: true }),
    price: money('Price each', { least: -LARGEST_PRICE, largest: LARGEST_PRICE, isRequired: true, isListed: true, note: 'Without tax. Below zero for a discount; 0 stands as “no charge”.' }),
    taxCodeId: reference('Tax code', 'tax code', { note: 'A discount takes the code of what it lowers. Left empty, it bears no tax.' }),
    changeOrderId: reference('Of change order', 'change order', { isListed: true, isFixed: true, note: 'Left empty, it stands on the quote.' }),
    optionId: reference('Belongs to option', 'quote option', { isListed: true, note: 'Counts when the customer says yes to it.' }),
  },
  title: (row) => String(row.text), orderBy: [{ number: 'asc' }], check: checkLine, holds: holdsLine,
  begin: (row) => (row?.changeOrderId ? { href: orderOf(row), name: 'To the change order', roles: MANAGERS } : toQuote(row)),
  backTo: (row) => (row.changeOrderId ? `${orderOf(row)}?saved=${row.id}` : backToQuote(row)),
  firstStep: { why: 'What is charged or taken off beside the estimate.', example: 'Collecting the vehicle, 85.00; returning customer, −150.00.' },
})

export const depositStep = defineKind({
  ...OF_QUOTE, name: 'deposit step', plural: 'deposit steps', path: 'deposit-steps', model: 'depositStep', number: { prefix: '', within: 'build' },
  fields: {
    due: text('Due', { isRequired: true, note: 'On signing; when the equipment is ordered; at delivery.' }),
    share: quantity('Share', 'share', { least: 1, largest: 1000, isRequired: true, isListed: true, note: 'Of what is accepted, with tax. Some places limit deposits: local law decides.' }),
  },
  title: (row) => String(row.due), orderBy: [{ number: 'asc' }], check: checkDeposits, begin: toQuote, backTo: backToQuote,
  firstStep: { why: 'Who buys equipment for a customer wants some of it paid before.', example: '30 % on signing, 40 % when the equipment is ordered.' },
})
