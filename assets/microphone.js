// Spoken answers. The app keeps a ticket on this phone while a walk is talked through: then the
// microphone is opened, and what it hears goes to the server over a socket of its own. The server
// lets nothing of it through but what is said while a button is held. It is told of a key that was
// learnt to be held for talking, and of every sound that this page plays.
//
// This script comes before those that put classes of their own in place of the browser's.
(() => {
  const TICKET = 'walkaround.recognition', KEYS = 'flutter.walkaround.keys', AGAIN_MS = 1500;
  const Context = window.AudioContext, Socket = window.WebSocket;
  const create = document.createElement.bind(document);
  const playing = new Set();
  let socket = null, ticket = '', microphone = null, heldBy = null;

  const tell = (what) => {
    if (socket?.readyState === Socket.OPEN) {
      socket.send(JSON.stringify(what));
    }
  };

  document.createElement = (name, ...options) => {
    const made = create(name, ...options);
    if (name === 'audio') {
      const now = (on) => {
        const before = playing.size > 0;
        on ? playing.add(made) : playing.delete(made);
        if (before !== playing.size > 0) {
          tell({ playing: !before });
        }
      };
      made.addEventListener('playing', () => now(true));
      for (const end of ['ended', 'pause', 'emptied', 'error']) {
        made.addEventListener(end, () => now(false));
      }
    }
    return made;
  };

  const close = () => {
    microphone?.stream.getTracks().forEach((track) => track.stop());
    microphone?.context.close();
    microphone = null;
    socket?.close();
    socket = null;
  };

  const listen = async (to) => {
    if (!window.isSecureContext || !navigator.mediaDevices) {
      return 'not_secure';
    }
    let stream;
    try {
      // What the server hears must not be made to sound better for people.
      stream = await navigator.mediaDevices.getUserMedia({ audio: {
        channelCount: 1, echoCancellation: true, noiseSuppression: false, autoGainControl: true,
      } });
    } catch (refused) {
      return refused.name === 'NotFoundError' ? 'no_microphone' : 'refused';
    }
    const context = new Context({ sampleRate: 16000 });
    microphone = { stream, context };
    await context.audioWorklet.addModule('/microphone-worklet.js');
    const samples = new AudioWorkletNode(context, 'samples', { numberOfOutputs: 0 });
    samples.port.onmessage = ({ data }) => {
      // What cannot be sent now is of no use later.
      if (to.readyState === Socket.OPEN && to.bufferedAmount < 64000) {
        to.send(data);
      }
    };
    context.createMediaStreamSource(stream).connect(samples);
    return '';
  };

  const open = () => {
    const mine = new Socket(`${location.origin.replace(/^http/, 'ws')}/microphone/${ticket}`);
    const asked = ticket;
    socket = mine;
    mine.onopen = async () => {
      const trouble = await listen(mine).catch(() => 'no_microphone');
      if (mine !== socket) {
        return;
      }
      tell(trouble ? { trouble } : { joined: true });
      tell({ playing: playing.size > 0 });
    };
    mine.onclose = ({ code }) => {
      if (mine !== socket) {
        return;
      }
      close();
      // 4401: this phone is not paired any more; 4404: its page is gone.
      if (code !== 4401 && code !== 4404) {
        setTimeout(() => asked === ticket && ticket && !socket && open(), AGAIN_MS);
      }
    };
  };

  const keep = Storage.prototype.setItem;
  Storage.prototype.setItem = function (key, value) {
    if (key === `flutter.${TICKET}`) {
      // It is of this visit only.
      ticket = JSON.parse(value);
      close();
      if (ticket) {
        open();
      }
      return;
    }
    keep.call(this, key, value);
  };

  const named = (key) => key.replace(/\s/g, '').toLowerCase() || 'space';
  const talks = (event) => {
    try {
      const { keys } = JSON.parse(JSON.parse(localStorage.getItem(KEYS)));
      const name = named(/^Numpad/.test(event.code) ? event.code : event.key);
      return Object.entries(keys).some(([key, means]) => means === 'talk' && named(key) === name);
    } catch {
      return false;
    }
  };
  for (const kind of ['keydown', 'keyup']) {
    addEventListener(kind, (event) => {
      const typed = document.activeElement?.matches('input, textarea');
      if (!event.key || !socket || (kind === 'keydown' && typed) || !talks(event)) {
        return;
      }
      event.stopImmediatePropagation();
      event.preventDefault();
      const down = kind === 'keydown';
      if (down !== (heldBy !== null)) {
        heldBy = down ? event.code : null;
        tell({ held: down });
      }
    }, { capture: true });
  }
  // Whoever looks elsewhere does not hold it any more.
  addEventListener('blur', () => {
    if (heldBy !== null) {
      heldBy = null;
      tell({ held: false });
    }
  });
})();
