// The camera as a reader of codes; a photo of the code where there is no camera for pages. Nothing leaves the tablet.
import { codesIn } from "./codes.js";
import { html, useEffect, useRef, useState } from "./html.js";
import { Button } from "./parts.js";
import { say } from "./words.js";

const EVERY_MS = 250;

export function Scanner({ on, close }) {
  const video = useRef(null);
  const [state, setState] = useState("starting");
  useEffect(() => {
    let stream = null;
    let timer = 0;
    let over = false;
    const look = async () => {
      const [found] = await codesIn(frame(video.current));
      if (over) return;
      if (found) on(found);
      else timer = setTimeout(look, EVERY_MS);
    };
    const open = async () => {
      try {
        stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment", width: { ideal: 1280 } } });
        if (over) return;
        video.current.srcObject = stream;
        await video.current.play();
        setState("looking");
        await look();
      } catch {
        if (!over) setState("none");
      } finally {
        if (over) stream?.getTracks().forEach((track) => track.stop());
      }
    };
    open();
    return () => {
      over = true;
      clearTimeout(timer);
      stream?.getTracks().forEach((track) => track.stop());
    };
  }, []);
  const fromPhoto = async (event) => {
    const [file] = event.target.files;
    event.target.value = "";
    const [found] = file ? await codesIn(file) : [];
    if (found) on(found);
    else setState("unread");
  };
  return html`<div class="scanner">
    <video ref=${video} muted playsinline aria-label=${say("scan_view")}></video>
    <p role="status">${{ starting: say("scan_starting"), looking: say("scan_looking"), none: say("scan_none"), unread: say("scan_unread") }[state]}</p>
    <label class="camera"><input type="file" accept="image/*" capture="environment" onChange=${fromPhoto} /><span>${say("scan_photo")}</span></label>
    <${Button} kind="quick wide" on=${close}>${say("scan_close")}<//>
  </div>`;
}

function frame(video) {
  const canvas = document.createElement("canvas");
  canvas.width = video.videoWidth || 1;
  canvas.height = video.videoHeight || 1;
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  pen.drawImage(video, 0, 0);
  return pen.getImageData(0, 0, canvas.width, canvas.height);
}
