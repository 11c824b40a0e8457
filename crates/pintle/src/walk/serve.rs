//! The server: connections on loopback, bounded in number, size and time, each request handed to the desk.

use std::convert::Infallible;
use std::net::TcpListener;
use std::sync::Arc;
use std::sync::mpsc::SyncSender;
use std::time::Duration;

use http_body_util::{BodyExt as _, Full, LengthLimitError, Limited};
use hyper::body::{Bytes, Incoming};
use hyper::header::{
    ALLOW, CACHE_CONTROL, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HeaderName, HeaderValue, REFERRER_POLICY,
    X_CONTENT_TYPE_OPTIONS, X_FRAME_OPTIONS,
};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Request, Response, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::sync::{Semaphore, oneshot};
use tokio::time::timeout;

use super::answer::{Answer, Body};
use super::desk::{Ask, Asked, Sent};
use super::door::{Door, Way};

/// The largest body that is taken.
const LARGEST: usize = 256 * 1024;
/// The most that the head of a request may take, in bytes and in lines.
const LARGEST_HEAD: usize = 16 * 1024;
const MOST_HEADERS: usize = 64;
/// Who takes longer to send a head, or a body, is hung up on.
const SLOWEST: Duration = Duration::from_secs(10);
/// No connection is kept longer than this, whatever is done on it.
const LONGEST: Duration = Duration::from_secs(120);
/// Connections at a time; who comes after waits.
const MOST_AT_ONCE: usize = 16;
/// How long a connection that is asked to end may take to.
const LEAVE: Duration = Duration::from_secs(5);

/// Serves until it is told to stop.
pub(super) fn serve(listener: TcpListener, door: Door, desk: &SyncSender<Asked>) -> std::io::Result<()> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    runtime.block_on(async {
        listener.set_nonblocking(true)?;
        let listener = tokio::net::TcpListener::from_std(listener)?;
        let stop = stopped();
        tokio::pin!(stop);
        let door = Arc::new(door);
        let places = Arc::new(Semaphore::new(MOST_AT_ONCE));
        let (tell, _) = tokio::sync::watch::channel(false);
        loop {
            let place = Arc::clone(&places).acquire_owned();
            let accepted = async { (place.await, listener.accept().await) };
            let (place, accepted) = tokio::select! {
                stopped = &mut stop => { stopped?; break }
                accepted = accepted => accepted,
            };
            // A connection that broke before it began is nobody's; one that is refused for want of files passes.
            let Ok((stream, _)) = accepted else {
                tokio::time::sleep(Duration::from_millis(50)).await;
                continue;
            };
            let (door, desk, mut told) = (Arc::clone(&door), desk.clone(), tell.subscribe());
            tokio::spawn(async move {
                let service = service_fn(move |request| {
                    let (door, desk) = (Arc::clone(&door), desk.clone());
                    async move { Ok::<_, Infallible>(answered(&door, &desk, request).await) }
                });
                let connection = http1::Builder::new()
                    .timer(TokioTimer::new())
                    .header_read_timeout(SLOWEST)
                    .max_buf_size(LARGEST_HEAD)
                    .max_headers(MOST_HEADERS)
                    .serve_connection(TokioIo::new(stream), service);
                tokio::pin!(connection);
                tokio::select! {
                    _ = &mut connection => return,
                    () = tokio::time::sleep(LONGEST) => {}
                    _ = told.changed() => {}
                }
                connection.as_mut().graceful_shutdown();
                let _ = timeout(LEAVE, connection).await;
                drop(place);
            });
        }
        // What is being saved is saved before the program ends.
        let _ = tell.send(true);
        let all = u32::try_from(MOST_AT_ONCE).unwrap_or(1);
        let _ = timeout(LEAVE, places.acquire_many(all)).await;
        Ok(())
    })
}

/// Ctrl-C, or the wish of the system that it ends.
async fn stopped() -> std::io::Result<()> {
    #[cfg(unix)]
    {
        let mut end = tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate())?;
        tokio::select! {
            pressed = tokio::signal::ctrl_c() => pressed,
            _ = end.recv() => Ok(()),
        }
    }
    #[cfg(not(unix))]
    tokio::signal::ctrl_c().await
}

async fn answered(
    door: &Door,
    desk: &SyncSender<Asked>,
    request: Request<Incoming>,
) -> Response<Full<Bytes>> {
    let ask = match door.way(&request) {
        Err(status) => return refused(status),
        Ok(Way::Alive) => return sealed(204, None, Bytes::new()),
        Ok(Way::Page) => Ask::Page,
        Ok(way @ (Way::Try | Way::Save)) => {
            let sent = match taken(request.into_body()).await {
                Ok(body) => Sent::read(&body).map_err(|_| 400),
                Err(status) => Err(status),
            };
            match (sent, way) {
                (Err(status), _) => return refused(status),
                (Ok(sent), Way::Save) => Ask::Save(sent),
                (Ok(sent), _) => Ask::Try(sent),
            }
        }
    };
    let (back, answer) = oneshot::channel();
    // The desk takes a few at a time; more than that is a browser gone wild.
    if desk.try_send((ask, back)).is_err() {
        return refused(503);
    }
    match answer.await {
        Ok(Answer { status, body: Body::Page(page) }) => {
            let mut response = sealed(status, Some("text/html; charset=utf-8"), page.html.into());
            if let Ok(policy) = HeaderValue::from_str(&page.policy) {
                response.headers_mut().insert(CONTENT_SECURITY_POLICY, policy);
            }
            response
        }
        Ok(Answer { status, body: Body::Json(value) }) => {
            sealed(status, Some("application/json"), value.to_string().into())
        }
        Err(_) => refused(500),
    }
}

/// A body, if it is not too large and comes in time.
async fn taken(body: Incoming) -> Result<Bytes, u16> {
    match timeout(SLOWEST, Limited::new(body, LARGEST).collect()).await {
        Err(_) => Err(408),
        Ok(Err(error)) if error.is::<LengthLimitError>() => Err(413),
        Ok(Err(_)) => Err(400),
        Ok(Ok(collected)) => Ok(collected.to_bytes()),
    }
}

/// A refusal says nothing but its number, and ends the connection.
fn refused(status: u16) -> Response<Full<Bytes>> {
    let mut response = sealed(status, Some("text/plain; charset=utf-8"), Bytes::new());
    let headers = response.headers_mut();
    headers.insert(hyper::header::CONNECTION, HeaderValue::from_static("close"));
    if status == 405 {
        headers.insert(ALLOW, HeaderValue::from_static("GET, POST"));
    }
    response
}

/// A response with the headers that every one has.
fn sealed(status: u16, kind: Option<&'static str>, body: Bytes) -> Response<Full<Bytes>> {
    let mut response = Response::new(Full::new(body));
    *response.status_mut() = StatusCode::from_u16(status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
    let headers = response.headers_mut();
    let fixed: [(HeaderName, &str); 6] = [
        (CACHE_CONTROL, "no-store"),
        (CONTENT_SECURITY_POLICY, "default-src 'none'; frame-ancestors 'none'"),
        (X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (X_FRAME_OPTIONS, "DENY"),
        (REFERRER_POLICY, "no-referrer"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    ];
    for (name, value) in fixed {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if let Some(kind) = kind {
        headers.insert(CONTENT_TYPE, HeaderValue::from_static(kind));
    }
    response
}
