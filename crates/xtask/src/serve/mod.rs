//! `cargo xtask serve`: a small static server for this machine, which sends what a good host would send.

mod reply;
mod request;

use crate::build;
use crate::house;
use crate::steps::Steps;
use anyhow::{Context, Result, bail};
use reply::Site;
use std::io::{BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

const PORT: u16 = 8461;

/// What was asked for on the command line.
struct Wish {
    port: Option<u16>,
    under: String,
    dist: Option<PathBuf>,
}

/// Builds what changed and serves it until the process is ended.
pub(crate) fn verb(arguments: &[String], steps: &mut Steps) -> Result<()> {
    let wish = wish(arguments)?;
    let folder = match wish.dist {
        Some(folder) => folder,
        None => {
            build::site(steps)?;
            steps.slowest();
            steps.forget();
            house::dist()
        }
    };
    if !folder.is_dir() {
        bail!("There is no folder {} to serve.", folder.display());
    }
    let listener = listen(wish.port)?;
    let port = listener.local_addr()?.port();
    println!("\nPressmark is at http://127.0.0.1:{port}{}  (end with Ctrl-C)", wish.under);
    std::io::stdout().flush()?;
    let site = Arc::new(Site { folder, under: wish.under });
    for stream in listener.incoming().flatten() {
        let site = Arc::clone(&site);
        std::thread::spawn(move || converse(&stream, &site));
    }
    Ok(())
}

fn wish(arguments: &[String]) -> Result<Wish> {
    let mut wish = Wish { port: None, under: "/".to_owned(), dist: None };
    let mut rest = arguments.iter();
    while let Some(name) = rest.next() {
        let mut value = || rest.next().with_context(|| format!("{name} needs a value."));
        match name.as_str() {
            "--port" => {
                let text = value()?;
                wish.port = Some(text.parse().with_context(|| format!("{text:?} is no port: 0 to 65535."))?);
            }
            "--under" => wish.under = format!("/{}/", value()?.trim_matches('/')).replace("//", "/"),
            "--dist" => wish.dist = Some(PathBuf::from(value()?)),
            other => {
                bail!("serve does not know {other:?}; it takes --port N, --under /path/ and --dist FOLDER.")
            }
        }
    }
    Ok(wish)
}

/// The port that was asked for, or the usual one, or any free one when that is taken.
fn listen(port: Option<u16>) -> Result<TcpListener> {
    match port {
        Some(port) => TcpListener::bind(("127.0.0.1", port)).with_context(|| {
            format!("Port {port} cannot be used. Is it taken? Try --port 0 for a free one.")
        }),
        None => TcpListener::bind(("127.0.0.1", PORT))
            .or_else(|_| TcpListener::bind(("127.0.0.1", 0)))
            .context("No port of this machine can be used."),
    }
}

/// Answers the requests of one connection, one after the other, until the other side has had enough.
fn converse(stream: &TcpStream, site: &Site) {
    // A browser holds idle connections open; a minute of silence ends them and their thread.
    let _ = stream.set_read_timeout(Some(Duration::from_secs(60)));
    let _ = stream.set_nodelay(true);
    let mut reader = BufReader::new(stream);
    let mut writer = stream;
    while let Some(request) = request::read(&mut reader) {
        let answer = site.answer(&request);
        if writer.write_all(&answer).is_err() || request.last {
            break;
        }
    }
}
