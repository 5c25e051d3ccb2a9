import { html } from '../../report/html/markup.js';
import { type Access, permissionOf } from '../access.js';
import type { ApiContext } from '../api/route.js';
import { signInCookie } from '../signed-in.js';
import { markupResponse } from './markup-response.js';
import { shell } from './shell.js';

/** The form that asks for a token, where the server needs one. */
export function signInPage(wasWrong = false): Response {
  const body = html`<h1>Sign in</h1>
<form method="post" action="/sign-in" class="bar"><div class="field"><label for="token">Token of this server</label>
<input id="token" name="token" type="password" autocomplete="current-password" required${wasWrong && html` aria-invalid="true" aria-describedby="wrong"`}></div><button>Sign in</button></form>
${wasWrong && html`<p class="problem" id="wrong" role="alert">This token is not known here.</p>`}`;
  return markupResponse(shell({ title: 'cutpoint: sign in' }, body), wasWrong ? 403 : 200);
}

/** Keeps a token that is right in a cookie for the browser's session. */
export async function signIn(access: Access, context: ApiContext): Promise<Response> {
  const token = new URLSearchParams(await context.req.text()).get('token')?.trim() ?? '';
  if (permissionOf(access, `Bearer ${token}`) === 'none') return signInPage(true);
  const isSecure = new URL(context.req.url).protocol === 'https:';
  const headers = new Headers({ Location: '/' });
  if (access.kind === 'tokens') headers.set('Set-Cookie', signInCookie(token, isSecure));
  return new Response(null, { status: 303, headers });
}
