import { existsSync } from 'node:fs'
import { issueCode } from '../people/issuedCodes.ts'
import { findAccount, listAccounts } from '../people/store.ts'
import { passwordState } from '../people/pages.ts'
import { openDatabase, type Database } from '../shared/database/database.ts'
import { inspect } from '../shared/database/migrations.ts'
import { command, Refused } from './command.ts'

const USAGE = `Usage:
  npm run people -- list          who may sign in
  npm run people -- code NAME     a one-time code for the person with this sign-in name
Both may run while the server does.`

async function run(database: Database, [asked, name, ...rest]: readonly string[]): Promise<string> {
  if (asked === 'list' && name === undefined) return list(database)
  if (asked === 'code' && name !== undefined && rest.length === 0) return giveCode(database, name)
  throw new Refused(USAGE)
}

async function list({ reads }: Database): Promise<string> {
  const accounts = await listAccounts(reads)
  if (accounts.length === 0) return 'Nobody yet. Start the server: its log shows the code for the first owner.'
  const now = new Date()
  const lines = accounts.map((account) =>
    [account.signInName, account.name, account.role, account.maySignIn ? `password ${passwordState(account, now)}` : 'may not sign in'].join('\t'))
  return lines.join('\n')
}

async function giveCode(database: Database, name: string): Promise<string> {
  const account = await findAccount(database.reads, { signInName: name.toLowerCase() })
  if (!account) throw new Refused(`Nobody has the sign-in name ${name}. See: npm run people -- list`)
  if (!account.maySignIn) throw new Refused(`${account.name} is disabled or removed. An owner can let them in again under People.`)
  const actor = { personId: null, personName: 'the command line', requestId: 'people', now: new Date() }
  const { code, until } = await database.write((write) => issueCode(write, account, actor))
  return `${code}\nFor ${account.name}, once, until ${until.toISOString()}. They enter it under /new-password.`
}

await command(async ({ databaseFile }, given) => {
  if (!existsSync(databaseFile)) throw new Refused(`There is no database ${databaseFile}. Set DATA_DIR as for the server.`)
  if (inspect(databaseFile).length > 0) throw new Refused('The database is older than this program. Start the server once; it brings it up to date.')
  const database = await openDatabase(databaseFile)
  try {
    return await run(database, given)
  } finally {
    await database.close()
  }
})
