// Asks the device for a passkey, and brings its answer to the server.

const ask = async (path, told) => {
  const answer = await fetch(path, {
    method: "POST", body: JSON.stringify(told),
    headers: { "Content-Type": "application/json", "X-Standfast": "1" },
  });
  const data = await answer.json();
  if (!answer.ok) throw new Error(data.what);
  return data;
};

const run = (button, action) => button?.addEventListener("click", async () => {
  const told = document.getElementById("passkey-told");
  told.textContent = "";
  button.disabled = true;
  try {
    location.assign((await action()).to);
  } catch (error) {
    told.textContent = `${button.dataset.failed} ${error.message}`;
    button.disabled = false;
  }
});

run(document.getElementById("passkey-sign-in"), async () => {
  const { number, options } = await ask("/office/passkey/ask", {});
  const publicKey = PublicKeyCredential.parseRequestOptionsFromJSON(options);
  const found = await navigator.credentials.get({ publicKey });
  return ask("/office/passkey/sign-in", { number, answer: found.toJSON() });
});

run(document.getElementById("passkey-new"), async () => {
  const { number, options } = await ask("/office/passkey/ask-new", {});
  const publicKey = PublicKeyCredential.parseCreationOptionsFromJSON(options);
  const made = await navigator.credentials.create({ publicKey });
  const label = document.getElementById("passkey-label").value;
  return ask("/office/passkey/new", { number, answer: made.toJSON(), label });
});
