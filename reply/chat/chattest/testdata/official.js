// Speaks to the chat service for tests with the chat's own published Node
// client. Prints one JSON object a step; the Go test plays the people.
const { WebClient } = require('@slack/web-api');
const { SocketModeClient } = require('@slack/socket-mode');

const [url, botToken, appToken, channel, user] = process.argv.slice(2);
const say = (step, data = {}) => process.stdout.write(JSON.stringify({ step, ...data }) + '\n');
const fail = (err) => { say('failed', { error: String(err && err.stack || err) }); process.exit(1); };
process.on('unhandledRejection', fail);

(async () => {
  const web = new WebClient(botToken, { slackApiUrl: url, retryConfig: { retries: 0 } });
  const me = await web.auth.test();
  const blocks = [
    { type: 'section', text: { type: 'mrkdwn', text: 'first' } },
    { type: 'actions', elements: [{ type: 'button', action_id: 'send', value: '1-1', text: { type: 'plain_text', text: 'Send' } }] },
  ];
  const metadata = { event_type: 'node_post', event_payload: { tag: 'x' } };
  const first = await web.chat.postMessage({ channel, text: 'first', blocks, metadata });
  await web.chat.postMessage({ channel, thread_ts: first.ts, text: 'second' });
  await web.chat.update({ channel, ts: first.ts, text: 'first, changed', blocks });
  await web.chat.postEphemeral({ channel, user, text: 'psst', thread_ts: first.ts });
  await web.files.uploadV2({ channel_id: channel, thread_ts: first.ts, filename: 'curve.png', alt_text: 'a curve', file: Buffer.from('png bytes') });
  const replies = await web.conversations.replies({ channel, ts: first.ts, include_all_metadata: true });
  const history = await web.conversations.history({ channel });
  const ann = await web.users.info({ user });
  const members = await web.conversations.members({ channel });
  let refused = '';
  try { await web.chat.postMessage({ channel: 'C0OTHER', text: 'x' }); } catch (e) { refused = e.data.error; }
  say('posted', {
    me: me.user_id, ts: first.ts, replies: replies.messages.length, history: history.messages.length,
    tag: replies.messages[0].metadata.event_payload.tag, file: replies.messages[2].files[0].name,
    ann: ann.user.real_name, members: members.members.length, refused,
  });

  const socket = new SocketModeClient({ appToken, clientOptions: { slackApiUrl: url } });
  let rounds = 0;
  socket.on('interactive', async ({ body, ack }) => {
    if (body.type === 'block_actions') {
      await ack();
      await web.views.open({ trigger_id: body.trigger_id, view: {
        type: 'modal', callback_id: 'edit', title: { type: 'plain_text', text: 'Edit' }, submit: { type: 'plain_text', text: 'Keep' },
        blocks: [{ type: 'input', block_id: 'b', label: { type: 'plain_text', text: 'letter' }, element: { type: 'plain_text_input', action_id: 'input', initial_value: 'Dear' } }],
      } });
      say('pressed', { action: body.actions[0].action_id, value: body.actions[0].value, user: body.user.id });
      return;
    }
    const value = body.view.state.values.b.input.value;
    if (value === 'bad') { await ack({ response_action: 'errors', errors: { b: 'not so' } }); return; }
    await ack();
    say('submitted', { value });
  });
  socket.on('message', async ({ event, ack }) => { await ack(); say('heard', { text: event.text }); });
  socket.on('app_mention', async ({ event, ack }) => { await ack(); say('mentioned', { text: event.text }); });
  socket.on('connected', () => say('connected', { round: ++rounds }));
  socket.on('error', fail);
  await socket.start();
})().catch(fail);
