//! A driver that does not answer any more must not stop a whole run.

use std::error::Error;
use std::time::Duration;

use hyper_timeout::TimeoutConnector;
use hyper_util::client::legacy::connect::HttpConnector;

use super::{Engine, Outcome};

/// How long a driver may take for an answer: longer than scripts, which drivers end themselves after half a minute.
pub const PATIENCE: Duration = Duration::from_secs(45);
/// How long the picture of a failure and the closing of the browser may take.
const PARTING: Duration = Duration::from_secs(30);

/// Asks a driver and gives it up when nothing comes back for so long.
pub fn connector(patience: Duration) -> TimeoutConnector<HttpConnector> {
    let mut connector = TimeoutConnector::new(HttpConnector::new());
    connector.set_read_timeout(Some(patience));
    // A connection is kept between two questions, and the second is not to pay for the pause before it.
    connector.set_reset_reader_on_write(true);
    connector
}

/// Whether an error means that a driver did not answer. The reason lies inside of it, and only its full text shows it.
pub fn is_meant(error: &(dyn Error + Send + Sync + 'static)) -> bool {
    format!("{error:?}").contains("TimedOut")
}

/// Says in words that the driver did not answer, where an error means that.
pub fn explain<T>(outcome: Outcome<T>, engine: Engine) -> Outcome<T> {
    outcome.map_err(|error| {
        if !is_meant(error.as_ref()) {
            return error;
        }
        format!("the driver of {} did not answer for {} s: {error:?}", engine.name(), PATIENCE.as_secs()).into()
    })
}

/// What is done at the end of a visit, with whatever is left of the driver.
pub async fn at_parting<T>(work: impl Future<Output = Outcome<T>> + Send) -> Outcome<T> {
    let silence = format!("the driver did not answer for {} s at the end", PARTING.as_secs());
    tokio::time::timeout(PARTING, work).await.unwrap_or_else(|_| Err(silence.into()))
}

#[cfg(test)]
mod tests {
    use std::net::{Ipv4Addr, TcpListener};

    use fantoccini::ClientBuilder;

    use super::*;

    #[tokio::test]
    async fn a_driver_that_never_answers_is_given_up() -> Outcome {
        // It takes the question and leaves it there.
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
        let address = format!("http://{}", listener.local_addr()?);
        let asked = ClientBuilder::new(connector(Duration::from_millis(100))).connect(&address).await;
        let outcome = explain(asked.map_err(Into::into), Engine::WebKit);
        let message = outcome.expect_err("nobody answers").to_string();
        assert!(message.starts_with("the driver of webkit did not answer for 45 s"), "{message}");
        Ok(())
    }
}
