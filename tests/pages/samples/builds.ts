import type { BuildRow, BuildsData } from '../../../web/builds/builds.tsx'
import { seconds } from './workings.ts'

const row = (number: string, title: string, customer: string, vehicle: string, stage: string, index: number, promisedOn: string, logged: number, forecast: number, openPoints: number, wayBack: string, more: Partial<BuildRow> = {}): BuildRow => ({
  number, title, href: '/builds/sample', customer, vehicle, kind: 'show build', stage: { name: stage, index, count: 9 }, state: 'running', promisedOn, isLate: false, logged: seconds(logged), forecast: seconds(forecast), openPoints, runningOver: 0, consent: '', wayBack, ...more,
})

export const builds: BuildsData = {
  builds: [
    row('B-0162', 'Field cab', 'Dessa Varnholt', 'Orrin Pellam, pickup', 'Fabricate', 6, '2027-03-15', 236.5, 435.5, 10, '6 parts, 2 repairs', { runningOver: 2, consent: 'near the consent' }),
    row('B-0158', 'Quiet doors and a subwoofer', 'J. Ostrander', 'Maro Lisk, hatchback', 'Wire', 7, '2027-01-14', 22, 26.5, 1, 'as is', { kind: 'everyday build', isLate: true }),
    row('B-0166', 'Service van, charging wall', 'Pell Ferry Service', 'Maro Osk E, van', 'Estimate', 3, '', 0, 88, 2, 'not out yet'),
    row('B-0151', 'Wagon, leased', 'T. Okonta', 'Orrin Wren, wagon', 'Delivered', 9, '2024-02-02', 61, 61, 0, '3 parts, 1 repair'),
    row('B-0170', 'Camera behind the plate', 'H. Quill', 'Sedge Two, sedan', 'Fabricate', 6, '2027-01-12', 0.5, 1.5, 0, 'as is', { kind: 'counter job' }),
    row('B-0169', 'Four-speaker swap', 'B. Tarrow', 'Maro Lisk, hatchback', 'Delivered', 9, '2027-01-11', 3, 3, 0, 'as is', { kind: 'counter job', state: 'done' }),
  ],
  cuts: [{ name: 'all', href: '/builds', isCurrent: true }, { name: 'builds', href: '/builds?kind=build', isCurrent: false }, { name: 'counter jobs', href: '/builds?kind=counter', isCurrent: false }, { name: 'with open points', href: '/builds?open=1', isCurrent: false }],
  find: '', moreHref: '/builds?after=1', beginHref: '/builds/new', counterJobHref: '/builds/new?kind=counter', firstSteps: [], hasBuilds: true,
}

export const noBuilds: BuildsData = {
  ...builds, builds: [], moreHref: undefined, beginHref: undefined, counterJobHref: undefined,
  hasBuilds: false,
  firstSteps: [
    { title: 'The shop', why: 'Everything stands on it.', example: 'Name, currency, hours.', href: '/shop/shop/form', button: 'Set up the shop', isDone: true },
    { title: 'People and their skills', why: 'Who works here and what each can do. Hours and dates need nobody’s wage, only departments.', example: 'R. Fennick: fabrication, laminating. M. Oduyal: wiring, disassembly.', href: '/people/new', button: 'Enter people' },
    { title: 'The first customer and vehicle', why: 'Every build belongs to a vehicle, and a vehicle to somebody.', example: 'Dessa Varnholt; Orrin Pellam, pickup, 2024.', href: '/customers/new', button: 'Enter a customer' },
    { title: 'The first build', why: 'A title and the zones that will be touched.', example: 'Double-cab pickup, rear wall and roof console, wanted by 12 March.', href: '/builds/new', button: 'Begin a build' },
  ],
}
