import { Tokens } from '@fastify/csrf'

/** Makes and checks the hidden token of every form; masked anew on each page. */
export const CSRF = new Tokens({})
