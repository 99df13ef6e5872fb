"""What is sent along with every answer, so that a browser does not do more with it than it should."""

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

_NOTHING = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
OFFICE_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
FIELD_POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; "
    "media-src 'self' blob:; connect-src 'self'; font-src 'self'; worker-src 'self'; manifest-src 'self'; "
    "form-action 'none'; base-uri 'none'; frame-ancestors 'none'"
)
DATA_POLICY = f"{_NOTHING}; sandbox"
_NO_DEVICES = (
    "accelerometer=(), autoplay=(), display-capture=(), geolocation=(), gyroscope=(), magnetometer=(), microphone=(), "
    "midi=(), payment=(), usb=()"
)
HSTS = "max-age=31536000"


class Headers:
    """Adds to every answer what tells a browser to keep within bounds."""

    def __init__(self, app: ASGIApp, *, secure: bool) -> None:
        self.app, self.secure = app, secure

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, with the headers added."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        told = _of(scope["path"])
        if self.secure:
            told["Strict-Transport-Security"] = HSTS

        async def sent(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in told.items():
                    headers[name] = value
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        await self.app(scope, receive, sent)


def _of(path: str) -> dict[str, str]:
    field = path == "/field" or path.startswith("/field/")
    policy = FIELD_POLICY if field else DATA_POLICY if path.startswith("/api/") else OFFICE_POLICY
    camera = "camera=(self)" if field else "camera=()"
    return {
        "Content-Security-Policy": policy,
        "X-Content-Type-Options": "nosniff",
        "X-Frame-Options": "DENY",
        # With no-referrer a browser would send "null" as the origin of our own forms.
        "Referrer-Policy": "same-origin",
        "Permissions-Policy": f"{camera}, {_NO_DEVICES}",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        "X-Permitted-Cross-Domain-Policies": "none",
    }
