import { registerRecords } from '../shared/records/register.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerFirstOwner } from './firstOwner.ts'
import { registerIssuedCodes } from './issuedCodes.ts'
import { registerMe } from './me.ts'
import { registerNewPassword } from './newPassword.ts'
import { guardOwners, registerPeoplePages } from './pages.ts'
import { person } from './records.ts'
import { registerSignIn } from './signIn.ts'
import { createThrottle } from './throttle.ts'
import { registerTokenApi } from './tokenApi.ts'

export function registerPeople(app: App, shell: Shell): void {
  const throttle = createThrottle()
  app.addHook('preHandler', async (request) => guardOwners(request, shell))
  registerSignIn(app, shell, throttle)
  registerFirstOwner(app, shell, throttle)
  registerNewPassword(app, shell, throttle)
  registerMe(app, shell, throttle)
  registerTokenApi(app, shell)
  registerRecords(app, shell, [person])
  registerPeoplePages(app, shell)
  registerIssuedCodes(app, shell)
}
