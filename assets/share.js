// "Share" hands the page of a walk to this phone's own sheet, where the browser has one for files.
// Browsers take a PDF there and mostly no record file. Where there is no sheet, or it takes
// nothing, the record file is downloaded as by any other link.
(() => {
  const WALK = /^\/shared\/(\w+)\.zip$/, open = window.open.bind(window);

  const download = (address) => {
    const link = document.createElement('a');
    link.href = address;
    link.download = '';
    link.click();
  };

  const share = async (address, walk) => {
    try {
      const answer = await fetch(`/files/${walk}.pdf${address.search}`);
      const named = /filename="([^"]+)"/.exec(answer.headers.get('content-disposition') ?? '');
      const pdf = { type: 'application/pdf' };
      const files = [new File([await answer.blob()], named?.[1] ?? `${walk}.pdf`, pdf)];
      if (answer.ok && navigator.canShare({ files })) {
        await navigator.share({ files });
        return;
      }
    } catch (refused) {
      if (refused.name === 'AbortError') {
        // The sheet was closed: nothing is wanted in its place.
        return;
      }
    }
    download(address.href);
  };

  // The app opens every address this way, in the tap itself.
  window.open = (to, ...how) => {
    const address = new URL(to, location.href);
    const walk = address.searchParams.has('sheet') && WALK.exec(address.pathname)?.[1];
    if (!walk || address.origin !== location.origin || !window.isSecureContext ||
        !navigator.canShare) {
      return open(to, ...how);
    }
    share(address, walk);
    return null;
  };
})();
