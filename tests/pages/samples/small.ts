import type { ConflictData } from '../../../web/shared/conflict.tsx'
import type { ProblemData } from '../../../web/shared/problem.tsx'
import type { FirstOwnerData } from '../../../web/people/firstOwner.tsx'
import type { SignInData } from '../../../web/people/signIn.tsx'

export const conflict: ConflictData = {
  place: 'builds', record: 'F-055 Rear wall panel', theirName: 'S. Brandvik', theirTime: '11:08', action: '/factory-parts/55', idempotencyKey: 'k', version: 4, recordHref: '/factory-parts/55',
  hidden: [['name', 'Rear wall panel']],
  fields: [
    { name: 'binId', label: 'Bin', yours: 'a', theirs: 'b', yoursShown: 'C-3', theirsShown: 'C-4' },
    { name: 'condition', label: 'Condition', yours: 'tab broken lower left', theirs: 'good' },
    { name: 'note', label: 'Note', yours: '', theirs: 'a photo shows it\non the rack' },
  ],
}

export const problem: ProblemData = {
  status: 503, title: 'The shop’s data is busy', what: 'Nothing was saved: another program held the data for longer than we wait.', remedy: 'Go back and send it again. What you typed is still there.', requestId: 'req-4f2',
}

export const signIn: SignInData = {
  shopName: 'Quayside Fitting Works', signInName: 'r.fennick', to: null, refused: 'Name and password do not fit together.',
  demo: { password: 'a demo shop by the quay', people: [{ signInName: 'i.carreg', role: 'manager' }, { signInName: 'r.fennick', role: 'technician' }, { signInName: 'd.aske', role: 'delivery' }] },
}

export const firstOwner: FirstOwnerData = {
  values: { code: 'K7QM-2D', shopName: '', name: 'I. Carreg', signInName: 'i.carreg' },
  problems: [{ field: 'code', message: 'This code is not the one in the log, or it has been used.' }, { field: 'shopName', message: 'Enter the name of the shop.' }],
}
