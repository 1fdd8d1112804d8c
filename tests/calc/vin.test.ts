import { spawnSync } from 'node:child_process'
import fc from 'fast-check'
import t from 'tap'
import { checkVin, vinCheckDigit, vinModelYear } from '../../server/calc/vin.ts'

const hasZint = spawnSync('zint', ['--version']).status === 0
const CHARACTERS = 'ABCDEFGHJKLMNPRSTUVWXYZ0123456789'

/** Check numbers that many public pages and test suites print; the first from an NHTSA outline for manufacturers. */
const PUBLISHED = [
  ['1J9RP1A36A1644345', '6'],
  ['1M8GDM9AXKP042788', 'X'],
  ['11111111111111111', '1'],
] as const

t.test('published numbers carry the check digit of 49 CFR 565.15', async t => {
  for (const [vin, digit] of PUBLISHED) {
    t.equal(vinCheckDigit(vin), digit, vin)
    t.same(checkVin(vin), { vin, verdict: 'right', messages: [] }, vin)
  }
})

t.test('the products of the NHTSA example add up to its printed sum', async t => {
  // NHTSA "Outline for New Manufacturer Information": 8 7 54 45 28 3 2 30 9 8 42 24 20 12 12 10, sum 314, remainder 6.
  const products = [8, 7, 54, 45, 28, 3, 2, 30, 9, 8, 42, 24, 20, 12, 12, 10]
  t.equal(products.reduce((sum, product) => sum + product, 0), 314)
  t.equal(String(314 % 11), vinCheckDigit('1J9RP1A36A1644345'))
})

t.test('a mistyped North American number is refused, naming position 9', async t => {
  const { verdict, messages } = checkVin('1M8GDM9A1KP042788')
  t.equal(verdict, 'wrong')
  t.match(messages[0], 'Position 9 should be X but is 1')
  t.equal(checkVin('1M8GDM9AXKP042789').verdict, 'wrong')
})

t.test('a number from elsewhere need not have a check digit', async t => {
  const filled = 'W00AAA00Z00000017'
  t.equal(checkVin(filled).verdict, 'no check digit')
  t.match(checkVin(filled).messages[0], 'usual outside North America')
  t.equal(checkVin('W'.repeat(8) + vinCheckDigit('W'.repeat(17)) + 'W'.repeat(8)).verdict, 'right', 'but may carry a right one')
})

t.test('a demonstration number begins with 0 and must be right', async t => {
  const blank = '0PB9C2A10B0000017'
  const right = blank.slice(0, 8) + vinCheckDigit(blank) + blank.slice(9)
  t.equal(checkVin(right).verdict, 'right')
  const wrong = blank.slice(0, 8) + (vinCheckDigit(blank) === '1' ? '2' : '1') + blank.slice(9)
  t.equal(checkVin(wrong).verdict, 'wrong')
})

t.test('length and characters are judged in clear words', async t => {
  t.same(checkVin('1M8GDM9AXKP04278').messages, ['A VIN has 17 characters; this one has 16, 1 too few.'])
  t.same(checkVin('1M8GDM9AXKP0427888').messages, ['A VIN has 17 characters; this one has 18, 1 too many.'])
  t.same(checkVin('').messages, ['Enter the 17 characters of the VIN.'])
  t.match(checkVin('1M8GDM9AXKPO42788').messages, [/^Position 12 is the letter O/])
  t.match(checkVin('IM8GDM9AXKPQ42788').messages, [/^Position 1 is the letter I.*the digit 1/, /^Position 12 is the letter Q.*the digit 0/])
  t.match(checkVin('1M8GDM9AXKP04278<').messages, [/^Position 17 is "<"/])
  t.equal(checkVin('1M8GDM9AXKP04278É').verdict, 'wrong')
  t.equal(checkVin('<script>'.repeat(2_000)).verdict, 'wrong')
  t.ok(checkVin('x'.repeat(10_000)).messages.length < 20)
  t.throws(() => vinCheckDigit('1M8GDM9AXKPO42788'), RangeError)
  t.throws(() => vinCheckDigit('1M8'), RangeError)
})

t.test('spaces, hyphens and small letters do not matter', async t => {
  t.same(checkVin(' 1m8-gdm9a xkp042788 '), { vin: '1M8GDM9AXKP042788', verdict: 'right', messages: [] })
})

t.test('the model year follows position 10, and position 7 tells the century half', async t => {
  // Year codes as encyclopedia tables print them (A 1980/2010 … Y 2000/2030, 1–9 2001–2009/2031–2039); position 7 by 49 CFR 565.15.
  t.equal(vinModelYear('1M8GDM9AXKP042788'), 1989, 'digit at 7, K at 10')
  t.equal(vinModelYear('1J9RP1A36A1644345'), 2010, 'letter at 7, A at 10')
  t.equal(vinModelYear('11111111111111111'), 2001)
  const years = {
    A: 1980, B: 1981, C: 1982, D: 1983, E: 1984, F: 1985, G: 1986, H: 1987, J: 1988, K: 1989, L: 1990, M: 1991, N: 1992, P: 1993, R: 1994,
    S: 1995, T: 1996, V: 1997, W: 1998, X: 1999, Y: 2000, 1: 2001, 2: 2002, 3: 2003, 4: 2004, 5: 2005, 6: 2006, 7: 2007, 8: 2008, 9: 2009,
  }
  for (const [code, year] of Object.entries(years)) {
    t.equal(vinModelYear(`111111111${code}1111111`), year, code)
    t.equal(vinModelYear(`111111A11${code}1111111`), year + 30, code)
  }
  for (const never of 'IOQUZ0') t.equal(vinModelYear(`111111111${never}1111111`), null, never)
  t.equal(vinModelYear('WAAAAAAAAAAAAAAAA'), null, 'elsewhere position 10 need not be a year')
  t.equal(vinModelYear('1M8'), null)
})

t.test('any right number passes, and a slip in its last digit is always caught', async () => {
  const middle = fc.array(fc.constantFrom(...CHARACTERS), { minLength: 15, maxLength: 15 })
  fc.assert(fc.property(fc.constantFrom(...'012345'), middle, fc.nat(9), fc.integer({ min: 1, max: 9 }), (first, rest, last, slip) => {
    const blank = `${first}${rest.join('')}${last}`
    const vin = blank.slice(0, 8) + vinCheckDigit(blank) + blank.slice(9)
    const mistyped = `${vin.slice(0, 16)}${(last + slip) % 10}`
    return checkVin(vin).verdict === 'right' && checkVin(mistyped).verdict === 'wrong'
  }), { seed: 20270212, numRuns: 100 })
})

t.test('a public barcode program judges North American numbers the same', { skip: hasZint ? false : 'skipped: the program "zint" is not installed' }, async () => {
  const tail = fc.array(fc.constantFrom(...CHARACTERS), { minLength: 16, maxLength: 16 })
  fc.assert(fc.property(fc.constantFrom(...'12345'), tail, fc.constantFrom(...'0123456789X'), (first, rest, ninth) => {
    const vin = first + rest.slice(0, 7).join('') + ninth + rest.slice(8).join('')
    const { status, stderr } = spawnSync('zint', ['--barcode=VIN', `--data=${vin}`, '--direct', '--filetype=SVG'], { encoding: 'utf8' })
    const { verdict, messages } = checkVin(vin)
    const named = /expecting '(.)'/.exec(stderr)?.[1]
    return status === 0 ? verdict === 'right' : verdict === 'wrong' && messages[0]?.includes(`should be ${named}`) === true
  }), { seed: 20270212, numRuns: 60 })
})
